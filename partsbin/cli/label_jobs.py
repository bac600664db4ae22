"""`partsbin label jobs`: what was printed."""

from __future__ import annotations

from pathlib import Path

import click

from partsbin.cli.opening import opened
from partsbin.cli.printing import json_option, print_columns, print_json, say


@click.command("jobs", short_help="List the print jobs.")
@click.option(
    "--most", type=click.IntRange(1), default=20, show_default=True, help="Of the newest, so many."
)
@json_option
def jobs(most: int, *, as_json: bool) -> None:
    """List the print jobs, the newest first. A jammed sheet is printed again by the job's number.

    \b
    Example:
      partsbin label jobs
      partsbin label --again 12 --from 25 -o rest.pdf
    """
    from partsbin.workshop.print_jobs import list_jobs

    with opened() as database, database.reading() as session:
        listed = list_jobs(session, most)
    if as_json:
        print_json(
            [
                {
                    "job": job.id,
                    "at": job.at.isoformat(timespec="seconds"),
                    "who": job.who,
                    "labels": job.labels,
                    "copies": job.copies,
                    "pages": job.pages,
                    "stock": job.stock,
                    "printer": job.printer or None,
                    "dpi": job.dpi,
                    "file": job.file,
                }
                for job in listed
            ]
        )
        return
    if not listed:
        say("nothing was printed yet")
        return
    print_columns(
        ("job", "when", "who", "labels", "pages", "stock", "printer", "file"),
        [
            (
                str(job.id),
                f"{job.at.astimezone():%Y-%m-%d %H:%M}",
                job.who,
                str(job.labels),
                str(job.pages),
                Path(job.stock).name.removesuffix(".toml"),
                job.printer or f"{job.dpi} dpi",
                job.file,
            )
            for job in listed
        ],
    )
