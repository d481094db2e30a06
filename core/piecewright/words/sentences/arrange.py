"""What arranging says of its answers."""

SENTENCES = {
    "arrange.nothing-free": "Nothing here may be moved: hang blocks, or free those that are locked.",
    "arrange.none-wait": "No block waits: all that are made hang already.",
    "arrange.no-place": "{count:waiting block finds|waiting blocks find} no free place.",
    "arrange.hung-some": "{count:waiting block hangs|waiting blocks hang}; {left:finds|find} no free place.",
    "arrange.hung-all": "{count:waiting block hangs|waiting blocks hang}.",
    "arrange.none-touch": "No like fabrics touch; before they did along {before}.",
    "arrange.touch": "Like fabrics touch along {inches}; before it was {before}.",
    "arrange.layout-whole": "Every block lies as the layout wants it.",
    "arrange.layout-plain": "{count:block has|blocks have} no light side and may lie either way.",
    "arrange.layout-stuck": "{count:block|blocks} cannot be turned so: longer than wide, or turning was not allowed.",
    "arrange.no-light-side": "None of these blocks has a light side and a dark one: the layout will not show.",
    "arrange.spread": "On average {off:number} of 100 steps of lightness from what was asked, before "
    "{before:number}. No other order of these blocks comes nearer.",
    "arrange.best-already": "It hangs so already: {off:number} of 100 steps of lightness from what was asked, as near "
    "as these blocks come.",
}
