"""From Markdown, worksheets and figures to the pages of the site."""
