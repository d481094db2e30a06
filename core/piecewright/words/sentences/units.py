"""What can be wrong with a length as typed."""

SENTENCES: dict[str, str] = {
    "units.empty": "No length is given.",
    "units.too-long": "A text of {count:character|characters} is no length: {most} are enough.",
    "units.too-many-digits": '"{text}" has a number of more than {most:digit|digits}.',
    "units.not-a-length": '"{text}" is not a length.',
    "units.unknown-unit": '"{unit}" is not a unit of length.',
    "units.divide-by-zero": '"{text}" has a zero below the line.',
    "units.fraction-not-below-one": 'The fraction {fraction} of "{text}" is one or more.',
    "units.negative": '"{text}" is less than zero.',
    "units.too-large": '"{text}" is more than {most}.',
    "units.hyphen": '"{text}" can be read in two ways, with the fraction added or taken away.',
    "units.not-a-size": '"{text}" is not a width and a height.',
    "units.write-size": 'Write both with an x between, like "60 x 72" or "152 x 183 cm".',
    "units.write-space": 'Put a space before the fraction, as in "6 1/2".',
    "units.write-length": 'Write it like "6 1/2", "6.5", "16.5 cm" or "1/4 yd".',
    "units.leave-sign-out": "Leave the minus sign out.",
    "units.check-number": "Check the number and its unit.",
    "units.known-units": "Write in, ft, yd, mm, cm or m, or leave the unit out.",
}
