"""Pictures of builds and moulds, laid out as plain shapes with the table that says the same. Pure."""
