"""Frozen views, templates and the published folder."""
