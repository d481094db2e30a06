"""A book is a dictionary in order, however it came to hold what it holds."""

from hypothesis import given
from hypothesis import strategies as st

from piecewright.plan.book import Book

entries = st.dictionaries(st.integers(0, 20), st.integers(1, 9))
changes = st.lists(st.dictionaries(st.integers(0, 20), st.none() | st.integers(1, 9), max_size=4), max_size=8)


@given(entries, changes)
def test_a_book_is_a_dictionary_sorted_by_key(
    first: dict[int, int], posts: list[dict[int, int | None]]
) -> None:
    book, kept = Book(first), dict(first)
    for post in posts:
        before = dict(book)
        after = book.posted(post)
        assert dict(book) == before
        for key, value in post.items():
            if value is None:
                kept.pop(key, None)
            else:
                kept[key] = value
        book = after
    assert list(book) == sorted(kept)
    assert dict(book) == kept
    assert book.in_order() == tuple(kept[key] for key in sorted(kept))
    assert book == Book(kept)
    assert all(key in book for key in kept)
    assert len(book) == len(kept)
    assert book.get(21) is None
