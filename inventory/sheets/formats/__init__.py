"""Any file an office may send, to sheets of rows of cells."""
