"""Before surgery: where the stoma may be, marked with the person; later, which site was used."""
