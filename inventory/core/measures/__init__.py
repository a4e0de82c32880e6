"""What is counted, weighed, measured and paid: exact whole numbers, read and shown."""
