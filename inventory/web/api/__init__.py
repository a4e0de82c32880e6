"""The open interface: the same acts and questions as JSON documents, version 1."""
