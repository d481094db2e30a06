"""The Cutting table: what to cut from what, drawn and listed, and what to buy."""
