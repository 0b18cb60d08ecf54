"""Papers put on record: answers to print, stored files, lists of them."""
