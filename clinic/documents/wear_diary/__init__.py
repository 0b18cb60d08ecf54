"""The diary a patient writes barriers into."""
