"""What to do, in words: finding -> need -> supply, each with its source."""

from planning.recommendations.advice import advice
from planning.recommendations.refer import referrals
from planning.recommendations.supplies import supply_recommendations

__all__ = ["advice", "referrals", "supply_recommendations"]
