"""Sheets on paper: the build sheet and the training sheet as PDF, made with nothing from elsewhere."""
