"""The version of the rules, stored with every plan. Raise it whenever a rule changes."""

from typing import Final

RULE_SET: Final = "2026.15"
