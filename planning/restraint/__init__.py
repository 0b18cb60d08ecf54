"""How much is changed today: what harms first, then one step, the rest in order for later."""
