"""The register of complications: what happened to a stoma, its grade, a hernia's class."""
