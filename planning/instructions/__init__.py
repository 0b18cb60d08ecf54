"""What the nurse and the patient do with the system: sizes to cut, amounts to order."""
