"""A marking before surgery on one sheet, for the theatre and the ward."""
