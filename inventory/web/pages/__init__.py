"""The pages, one module for each subject."""
