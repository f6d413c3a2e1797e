"""Questions answered from the journal and the arithmetic: question, intent, answer."""
