"""Real shapes: outline, opening, convex dome, ring, step beside a bulge. Lengths in mm."""
