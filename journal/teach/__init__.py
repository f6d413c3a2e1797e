"""Teaching from the record: training sheets, self-tests, and how an apprentice comes along."""
