"""HTML to PDF: WeasyPrint, what it may load, and what is kept to set it once."""
