"""What the visits of one stoma say together: trend, outcome of each plan, flags over time.

``course_report(course)`` answers everything at once; ``outcomes(course)`` judges the plans alone.
"""
