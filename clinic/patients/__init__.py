"""Patient, stoma, sensitivities: find, record, correct."""
