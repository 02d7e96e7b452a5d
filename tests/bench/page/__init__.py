"""The bench of the coach's page: how large it is, how long it takes, how many sheets it prints on."""
