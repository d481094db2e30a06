"""Lengths in recipes are worked out exactly as written, and anything else is refused in words."""

import ast
import operator
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import RecipeError
from piecewright.making.expressions import MOST_CHARACTERS, MOST_OPERATIONS, Expression

NAMES: Mapping[str, Fraction] = {"F": Fraction(12), "seam": Fraction(1, 4), "w_2": Fraction(-7, 3)}
OPERATORS: Mapping[str, Callable[[Fraction, Fraction], Fraction]] = {
    "+": operator.add,
    "-": operator.sub,
    "*": operator.mul,
    "/": operator.truediv,
}
RANK = {"+": 1, "-": 1, "*": 2, "/": 2, "~": 3}
ATOM = 4
SIGNS = ("½", "¼", "¾", "⅛")
SIGN_VALUES = (Fraction(1, 2), Fraction(1, 4), Fraction(3, 4), Fraction(1, 8))


@dataclass(frozen=True)
class Tree:
    """A sum as a tree: its tokens, with no more parentheses than needed, its value and its rank."""

    tokens: tuple[str, ...]
    value: Fraction
    rank: int = ATOM

    def inside(self, rank: int) -> tuple[str, ...]:
        """The tokens, in parentheses where something of this rank would tear them apart."""
        return self.tokens if self.rank >= rank else ("(", *self.tokens, ")")


def mixed(whole: int, top: int, bottom: int) -> Tree:
    return Tree((f"{whole} {top}/{bottom}",), whole + Fraction(top, bottom))


def signed(whole: int, index: int, gap: str) -> Tree:
    return Tree((f"{whole}{gap}{SIGNS[index]}",), whole + SIGN_VALUES[index])


def decimal(whole: int, digits: str) -> Tree:
    return Tree((f"{whole}.{digits}",), Fraction(f"{whole}.{digits}"))


small = st.integers(0, 40)
numbers = st.one_of(
    small.map(lambda whole: Tree((str(whole),), Fraction(whole))),
    st.builds(mixed, small, st.integers(1, 9), st.integers(1, 16)),
    st.builds(signed, small, st.integers(0, 3), st.sampled_from(["", " "])),
    st.builds(decimal, small, st.text("0123456789", min_size=1, max_size=3)),
    st.sampled_from([Tree((name,), value) for name, value in NAMES.items()]),
)


def joined(sign: str, left: Tree, right: Tree) -> Tree:
    if sign == "/" and right.value == 0:
        sign = "+"
    tokens = (*left.inside(RANK[sign]), sign, *right.inside(RANK[sign] + 1))
    return Tree(tokens, OPERATORS[sign](left.value, right.value), RANK[sign])


def negated(tree: Tree) -> Tree:
    return Tree(("-", *tree.inside(RANK["~"])), -tree.value, RANK["~"])


def extended(trees: st.SearchStrategy[Tree]) -> st.SearchStrategy[Tree]:
    return st.builds(joined, st.sampled_from("+-*/"), trees, trees) | trees.map(negated)


sums = st.recursive(numbers, extended, max_leaves=10)
gaps = st.lists(st.sampled_from(["", " ", "  ", "\t"]), min_size=80, max_size=80)


@given(sums, gaps)
def test_a_sum_is_worked_out_as_its_tree(tree: Tree, spaces: list[str]) -> None:
    text = "".join(space + token for token, space in zip(tree.tokens, spaces, strict=False))
    if len(text) <= MOST_CHARACTERS:
        assert Expression.parse(text).evaluate(NAMES) == tree.value


def by_python(node: ast.AST) -> Fraction:
    """The value of what Python's own parser makes of a text; ValueError for what no length can hold."""
    match node:
        case ast.Expression():
            return by_python(node.body)
        case ast.Constant(value=int(value)):
            return Fraction(value)
        case ast.Name():
            return NAMES[node.id]
        case ast.UnaryOp(op=ast.USub()):
            return -by_python(node.operand)
        case ast.BinOp(op=ast.Add()):
            return by_python(node.left) + by_python(node.right)
        case ast.BinOp(op=ast.Sub()):
            return by_python(node.left) - by_python(node.right)
        case ast.BinOp(op=ast.Mult()):
            return by_python(node.left) * by_python(node.right)
        case ast.BinOp(op=ast.Div()):
            return by_python(node.left) / by_python(node.right)
    raise ValueError(node)


@given(st.lists(st.sampled_from(["1", "2", "30", "F", "seam", *"+-*/()"]), min_size=1, max_size=14))
def test_any_row_of_tokens_means_what_it_means_to_python_or_nothing(tokens: list[str]) -> None:
    """Source: the grammar of Python, read by its own parser; no mixed number is among the tokens."""
    text = " ".join(tokens)
    try:
        expected = by_python(ast.parse(text, mode="eval"))
    except (SyntaxError, ValueError, ZeroDivisionError):
        with pytest.raises(RecipeError):
            Expression.parse(text).evaluate(NAMES)
    else:
        assert Expression.parse(text).evaluate(NAMES) == expected


@given(st.text(max_size=30) | st.text("0123456789 ./+-*()FIin½cmyd", max_size=30))
def test_any_text_is_a_length_or_refused_in_words(text: str) -> None:
    sentence = ""
    try:
        Expression.parse(text).evaluate({"F": Fraction(1)})
    except RecipeError as fault:
        sentence = fault.sentence()
    assert sentence.isprintable()


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2 1/2 * 3", "15/2"),
        ("F/3 + 2*seam", "9/2"),
        ("(F + 12*seam) / 6", "5/2"),
        ("1 / 2 1/2", "2/5"),
        ("-2 1/2", "-5/2"),
        ("-F/2 - -1", "-5"),
        ("2½*2", "5"),
        (".5", "1/2"),
        ("2.54 cm", "1"),
        ("25.4 mm", "1"),
        ("1/4 yd", "9"),
        ("2 1/2 in", "5/2"),
        (" 3/8 ", "3/8"),
    ],
)
def test_worked_examples(text: str, value: str) -> None:
    """Worked by hand; an inch is 25.4 mm (international yard and pound agreement, 1959)."""
    assert Expression.parse(text).evaluate(NAMES) == Fraction(value)


SENTENCES = {
    "": 'Here a length is missing. Write lengths as text in quotation marks, such as "2 1/2".',
    "1 +": '"1 +" ends after +, where a number or a name should follow.',
    "* 2": '"* 2" has no number or name before *.',
    "2 + * 3": '"2 + * 3" has no number or name between + and *.',
    "()": '"()" has no number or name between ( and ).',
    "(1 + 2": '"(1 + 2" opens a parenthesis that is not closed.',
    "1 + 2)": '"1 + 2)" closes a parenthesis that was not opened.',
    "2 F": '"2 F" has nothing between 2 and F. '
    "Put + - * or / between them; a length with in, cm, mm or yd stands alone.",
    "2 1 / 2": '"2 1 / 2" has nothing between 2 and 1. '
    "Put + - * or / between them; a length with in, cm, mm or yd stands alone.",
    "1e3": '"1e3" has nothing between 1 and e3. '
    "Put + - * or / between them; a length with in, cm, mm or yd stands alone.",
    "F + 1 cm": '"F + 1 cm" has the unit cm inside a sum. '
    "Give that length a name under sizes, or write it in inches without a unit.",
    "F ^ 2": '"F ^ 2" has "^", which no length can have. '
    "A length may hold numbers, names, + - * / and parentheses.",
    "max(F, 2)": '"max(F, 2)" has nothing between max and (. '
    "Put + - * or / between them; a length with in, cm, mm or yd stands alone.",
    "F.numerator": '"F.numerator" has ".", which no length can have. '
    "A length may hold numbers, names, + - * / and parentheses.",
    "1 / (F - 12)": '"1 / (F - 12)" divides by zero.',
    "1 3/0": '"1 3/0" divides by zero.',
    "2 * seem": '"2 * seem" uses seem, and nothing has that name here. Did you mean "seam"?',
    "2 * zzz": '"2 * zzz" uses zzz, and nothing has that name here. Names known here: F, seam and w_2.',
}


@pytest.mark.parametrize("text", SENTENCES)
def test_what_is_no_length_is_refused_in_one_sentence(text: str) -> None:
    with pytest.raises(RecipeError) as refusal:
        Expression.parse(text).evaluate(NAMES)
    assert refusal.value.sentence() == SENTENCES[text]


@pytest.mark.parametrize(
    ("value", "sentence"),
    [
        (12, '12 is not a length. Write it as text in quotation marks: "12".'),
        (2.5, '2.5 is not a length. Write it as text in quotation marks: "2.5".'),
        (True, 'true is not a length. Write lengths as text in quotation marks, such as "2 1/2".'),
        (None, 'null is not a length. Write lengths as text in quotation marks, such as "2 1/2".'),
        (["1"], '[...] is not a length. Write lengths as text in quotation marks, such as "2 1/2".'),
    ],
)
def test_what_is_no_text_is_refused_with_the_text_to_write(value: object, sentence: str) -> None:
    with pytest.raises(RecipeError) as refusal:
        Expression.parse(value)
    assert refusal.value.sentence() == sentence


def test_limits_hold_to_the_last_one_that_is_allowed() -> None:
    assert Expression.parse("1" + "+1" * MOST_OPERATIONS).evaluate({}) == 1 + MOST_OPERATIONS
    assert Expression.parse("(" * 20 + "1" + ")" * 20).evaluate({}) == 1
    assert Expression.parse(" " * 199 + "1").evaluate({}) == 1
    split = 'Work parts of it out under "let" and use their names.'
    over = {
        "1" + "+1" * 41: f'"1{"+1" * 29}+..." has more than 40 operations. {split}',
        "-" * 41 + "1": f'"{"-" * 41}1" has more than 40 operations. {split}',
        "(" * 21 + "1" + ")" * 21: f'"{"(" * 21}1{")" * 21}" has parentheses more than 20 deep. {split}',
        " " * 200 + "1": f"This length is 201 characters long; 200 is the most. {split}",
    }
    for text, sentence in over.items():
        with pytest.raises(RecipeError) as refusal:
            Expression.parse(text)
        assert refusal.value.sentence() == sentence


def test_a_sum_that_grows_without_end_is_refused() -> None:
    square = Expression.parse("x * x * x * x * x * x * x * x")
    value = square.evaluate({"x": Fraction(9999, 7)})
    with pytest.raises(RecipeError) as refusal:
        square.evaluate({"x": value})
    assert (
        refusal.value.sentence()
        == '"x * x * x * x * x * x * x * x" comes to a number far too long to cut by.'
    )


def test_an_expression_is_a_value() -> None:
    first, second = Expression.parse("F + 1"), Expression.parse("F + 1")
    assert first == second
    assert hash(first) == hash(second)
    assert first != Expression.parse("F+1")
    assert first.names == {"F"}
    assert Expression.parse(Fraction(5, 2)).evaluate({}) == Fraction(5, 2)
    with pytest.raises(AttributeError):
        first.text = "2"
