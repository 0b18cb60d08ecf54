"""Pages about a patient: find, register, record, sensitivities, stomas."""
