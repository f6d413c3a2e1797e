"""What a note may have said: how words sound, how makers talk, and the likeliest way through both."""
