"""Shapes of bundles, lays, loops and splices: lengths and angles only, no forces."""
