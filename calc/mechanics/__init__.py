"""Forces: bows, fibres under load, and a shot."""
