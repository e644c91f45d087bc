"""A progress bar on stderr; silent where nobody watches."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from claspwright.base import Progress


@contextmanager
def progress_bar(title: str) -> Iterator[Progress]:
    """A bar that shows the stage; it disappears when the work is done."""
    from rich.console import Console
    from rich.progress import BarColumn, TaskProgressColumn, TextColumn, TimeElapsedColumn
    from rich.progress import Progress as Bar

    from claspwright.base import Cancelled

    console = Console(stderr=True)
    columns = (
        TextColumn("{task.description}"),
        BarColumn(),
        TaskProgressColumn(),
        TimeElapsedColumn(),
        TextColumn("{task.fields[phase]}"),
    )
    with Bar(*columns, console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task(title, total=1.0, phase="")

        def report(fraction: float, phase: str) -> None:
            bar.update(task, completed=fraction, phase=phase)

        try:
            yield report
        except KeyboardInterrupt:
            raise Cancelled("interrupted") from None
