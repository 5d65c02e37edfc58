"""The tables of a journal, as named steps. Each step is done once, in one transaction, and is never edited afterwards.

``user_version`` is the number of steps done. Event bytes are never rewritten by a step, which would break the
signatures; old kinds are read by ``kinds``.
"""

from __future__ import annotations

from collections.abc import Callable

from sqlite_utils import Database

APPLICATION = 0x4C616D70
"""``application_id`` of a journal: the letters 'Lamp'."""


def _entries_and_pages(db: Database) -> None:
    db.create_table(
        "events",
        {
            "number": int,
            "stream": str,
            "version": int,
            "kind": str,
            "kind_version": int,
            "act": str,
            "body": bytes,
            "hash": bytes,
            "signature": bytes,
            "key": str,
            "chain": bytes,
        },
        pk="number",
        not_null={"stream", "version", "kind", "kind_version", "act", "body", "hash", "signature", "key", "chain"},
        strict=True,
    )
    db.table("events").create_index(["stream", "version"], index_name="events_in_stream", unique=True)
    db.table("events").create_index(["act"], index_name="events_of_act")
    db.create_table(
        "files",
        {"place": int, "sha256": str, "name": str, "content": bytes},
        pk="place",
        not_null={"sha256", "name", "content"},
        strict=True,
    )
    db.table("files").create_index(["sha256"], index_name="files_by_hash", unique=True)
    # Guard rails, not proof: who owns the file can drop a trigger. Proof are the signatures and the chain.
    for table in ("events", "files"):
        for deed in ("UPDATE", "DELETE"):
            db.execute(
                f"CREATE TRIGGER {table}_never_{deed.lower()} BEFORE {deed} ON {table} "
                f"BEGIN SELECT RAISE(ABORT, 'what is recorded stays as it is'); END"
            )
    db.execute(
        "CREATE TRIGGER events_without_gap BEFORE INSERT ON events "
        "WHEN NEW.number <> (SELECT coalesce(max(number), 0) + 1 FROM events) "
        "BEGIN SELECT RAISE(ABORT, 'entries are numbered without a gap'); END"
    )


def _beside_the_entries(db: Database) -> None:
    db.create_table(
        "drafts",
        {"owner": str, "field": str, "text": str},
        pk=("owner", "field"),
        not_null={"owner", "field", "text"},
        strict=True,
    )
    db.create_table(
        "keys",
        {"place": int, "key": str, "holder": str, "certificate": bytes, "sealed_private": bytes},
        pk="place",
        not_null={"key", "holder", "certificate"},
        strict=True,
    )
    db.table("keys").create_index(["key"], index_name="keys_by_id", unique=True)
    db.create_table(
        "personal",
        {"person": str, "name": str, "value": str},
        pk=("person", "name"),
        not_null={"person", "name", "value"},
        strict=True,
    )
    db.create_table("settings", {"name": str, "value": str}, pk="name", not_null={"name", "value"}, strict=True)


def _words_to_find(db: Database) -> None:
    db.create_table("findable", {"place": int, "stream": str}, pk="place", not_null={"stream"}, strict=True)
    db.table("findable").create_index(["stream"], index_name="findable_by_stream", unique=True)
    # The words come folded already (see ``search``), so the plainest tokenizer divides them only at spaces.
    db.execute("CREATE VIRTUAL TABLE words USING fts5(text, tokenize = 'ascii')")


STEPS: tuple[tuple[str, Callable[[Database], None]], ...] = (
    ("entries and pages", _entries_and_pages),
    ("beside the entries", _beside_the_entries),
    ("words to find", _words_to_find),
)
"""Only ever appended to."""

FORMAT = len(STEPS)


def shape(db: Database) -> frozenset[tuple[str, ...]]:
    """What the entries stand on: the columns of tables, and the words of triggers and index."""
    columns = db.execute(
        "SELECT 'column', made.name, c.name, c.type, c.[notnull], c.pk "
        "FROM sqlite_schema AS made, pragma_table_info(made.name) AS c "
        "WHERE made.type = 'table' AND made.name NOT LIKE 'words%'"
    ).fetchall()
    triggers = db.execute(
        "SELECT type, name, sql FROM sqlite_schema WHERE type = 'trigger' OR sql LIKE 'CREATE VIRTUAL TABLE%'"
    ).fetchall()
    return frozenset(tuple(str(value) for value in row) for row in (*columns, *triggers))


def migrate(db: Database, steps: tuple[tuple[str, Callable[[Database], None]], ...] = STEPS) -> tuple[str, ...]:
    """Do the steps that are not done yet; their names. Two programs starting at once do each step once."""
    done: list[str] = []
    while (step := _next(db, steps)) is not None:
        done.append(step)
    return tuple(done)


def _next(db: Database, steps: tuple[tuple[str, Callable[[Database], None]], ...]) -> str | None:
    if _steps_done(db) >= len(steps):
        return None
    db.conn.execute("BEGIN IMMEDIATE")
    try:
        number = _steps_done(db)  # again, now that nobody else can do one
        name = _do(db, number, steps) if number < len(steps) else None
        db.conn.execute("COMMIT")
    except BaseException:
        if db.conn.in_transaction:
            db.conn.execute("ROLLBACK")
        raise
    return name


def _do(db: Database, number: int, steps: tuple[tuple[str, Callable[[Database], None]], ...]) -> str:
    name, step = steps[number]
    if number == 0:
        db.execute(f"PRAGMA application_id = {APPLICATION}")
        db.create_table("migrations", {"number": int, "name": str}, pk="number", not_null={"name"}, strict=True)
    step(db)
    db.execute("INSERT INTO migrations (number, name) VALUES (?, ?)", (number + 1, name))
    db.execute(f"PRAGMA user_version = {number + 1}")
    return name


def _steps_done(db: Database) -> int:
    return int(db.execute("PRAGMA user_version").fetchone()[0])
