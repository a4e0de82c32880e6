"""Labels and papers: values in, bytes out."""
