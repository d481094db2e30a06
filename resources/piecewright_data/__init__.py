"""What ships beside the code: recipes, examples, icons, fonts, help, schemas and translations."""
