"""Text out of templates, HTML out of Markdown, drawings made fit to stand in a page. Knows no build."""
