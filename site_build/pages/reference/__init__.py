"""Reference pages: formulas, tables, charts, the sources they cite, and what is measured."""
