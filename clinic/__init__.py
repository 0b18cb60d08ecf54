"""The clinic's record: a Django project whose apps are named as the clinic speaks."""
