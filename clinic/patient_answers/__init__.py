"""What the person says, 0 to 10: the clinic's own questions, not a validated questionnaire."""
