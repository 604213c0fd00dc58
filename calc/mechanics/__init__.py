"""Forces: bows, fibres under load, the string between them."""
