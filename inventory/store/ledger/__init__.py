"""What was moved from where to where under which slip, and what lies where."""
