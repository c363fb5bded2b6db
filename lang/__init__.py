"""The language: sources, grammar, tree, findings, exact measures, schema, cells, formatter. It knows no cabinet."""
