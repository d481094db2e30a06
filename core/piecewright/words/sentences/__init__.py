"""The sentences, one file an area: SENTENCES maps a code to its template."""
