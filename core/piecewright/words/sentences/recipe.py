"""Sentences about a recipe's text: what is wrong, where the reader was, and the repair."""

SENTENCES: dict[str, str] = {
    # lengths
    "recipe.length-not-text": "{value} is not a length.",
    "recipe.length-empty": "Here a length is missing.",
    "recipe.write-length-as-text": 'Write lengths as text in quotation marks, such as "2 1/2" or "F + 2*seam".',
    "recipe.write-length-so": 'Write it as text in quotation marks: "{value}".',
    "recipe.too-long": "This length is {count} characters long; {most} is the most.",
    "recipe.split-with-let": 'Work parts of it out under "let" and use their names.',
    "recipe.too-many-operations": "{text} has more than {most} operations.",
    "recipe.too-nested": "{text} has parentheses more than {most} deep.",
    "recipe.monstrous": "{text} comes to a number far too long to cut by.",
    "recipe.bad-character": "{text} has {character}, which no length can have.",
    "recipe.length-may-hold": "A length may hold numbers, names, + - * / and parentheses.",
    "recipe.unit-in-sum": "{text} has the unit {unit} inside a sum.",
    "recipe.unit-alone": "Give that length a name of its own under sizes, or write it in inches without a unit.",
    "recipe.no-operator": "{text} has nothing between {left} and {right}.",
    "recipe.write-operator": "Put + - * or / between them; a length with a unit stands alone, in in, cm, mm or yd.",
    "recipe.value-missing-between": "{text} has no number or name between {left} and {right}.",
    "recipe.value-missing-before": "{text} has no number or name before {right}.",
    "recipe.value-missing-after": "{text} ends after {left}, where a number or a name should follow.",
    "recipe.parenthesis-not-opened": "{text} closes a parenthesis that was not opened.",
    "recipe.parenthesis-not-closed": "{text} opens a parenthesis that is not closed.",
    "recipe.divide-by-zero": "{text} divides by zero.",
    "recipe.unknown-name": "{text} uses {name}, and nothing has that name.",
    "recipe.names-known": "Names known here: {names:and}.",
    "recipe.did-you-mean": "Did you mean {word}?",
}
