"""What the trader notes of a job."""

from domain.job import Job, Note
from storage.database import Database
from storage.errors import Changed
from storage.queries import read_job
from storage.rows import NoteRow


class NoteActions(Database):
    """A note is written, changed and taken away; it is asked for nothing and stands in no way."""

    def write_note(self, job: Job, note: Note) -> Job:
        """Keep a note; one with an id is the one recorded."""
        with self._on_job(job, f"note “{note.words}” saved") as work:
            work.keep(NoteRow, note, job_id=work.job_id)
            return read_job(work.tables, work.job_id)

    def delete_note(self, job: Job, note_id: int) -> Job:
        """Take a note away. Raises :class:`Changed` if it is gone already."""
        with self._on_job(job, "note deleted") as work:
            found = work.get(NoteRow, note_id)
            if found is None or found.job_id != work.job_id:
                raise Changed
            work.remove(found)
            return read_job(work.tables, work.job_id)
