"""Joins the three stages in the middle into one pure turn."""
