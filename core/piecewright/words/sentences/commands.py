"""What the command line says."""

SENTENCES = {
    "commands.about": "From strips to a quilt's materials, exactly.",
    "commands.block": "What comes out of a recipe: sizes, strips, steps, where the cloth goes.",
    "commands.materials": "What a quilt needs: sets to sew, strips, yardage, border, binding, backing, batting.",
    "commands.picture": "Draw a quilt, or every step of a recipe, to scale.",
    "commands.check": "Look a design over and say what is wrong, where, and what to do.",
    "commands.design-file": "a design (*.piecewright or its JSON)",
    "commands.recipe-file": "a recipe (*.recipe.json), or the name of one that ships",
    "commands.either-file": "a design, a recipe, or the name of a recipe that ships",
    "commands.output": "the picture to write; its ending tells the kind",
    "commands.json": "print JSON instead of text",
    "commands.unit": "the unit to print lengths in",
    "commands.comma": "print a decimal comma",
    "commands.set": "use this size instead of the recipe's first choice",
    "commands.seam": "the seam allowance in force (1/4 unless told)",
    "commands.usable": "the usable width of the cloth (40 in unless told)",
    "commands.open": "Open the window on a design, or on the start page.",
    "commands.set-form": '"{text}" sets nothing. Write a size\'s name, an equals sign and a length, such as F=9.',
    "commands.seam-against": '"{name}" brings its own seam allowance of {seam}. Leave --seam out, or change the '
    "recipe.",
    "commands.usage": "{text}. Usage: {usage}",
    "commands.picture-kind": "No picture of that kind can be written. End the name in {kinds:or}.",
    "commands.only-recipe": "--set, --seam and --usable are for recipes. Leave them out: a design has its own.",
    "commands.written": "Written: {place}",
    "commands.all-well": '"{name}" is in order.',
}
