"""The queue's tasks: thin calls of flow."""
