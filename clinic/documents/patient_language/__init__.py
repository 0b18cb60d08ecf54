"""The languages of the care sheet: catalogues a translator can read, and what is made of them."""
