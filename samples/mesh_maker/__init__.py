"""Builds the sample and test meshes of layload. Lengths in millimetres."""
