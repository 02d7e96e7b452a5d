"""For the coach: tables, drawings and a page, made from journals. No file, clock or sound is touched here."""
