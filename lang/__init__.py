"""The language: sources, grammar, tree, findings, measures, schema, cells. It knows no cabinet."""
