"""Why there is no answer."""


class Refused(Exception):
    """Why there is no answer: a sentence; ``code``, a short word that stays the same from version to version; ``key``, the
    entry of the job that it is about, or None; ``help``, what to do about it."""

    def __init__(self, message: str, code: str, key: "str | None", help: str) -> None:
        super().__init__(message, code, key, help)
        self.message = message
        self.code = code
        self.key = key
        self.help = help

    def __str__(self) -> str:
        return f"{self.message} ({self.code}{', ' + self.key if self.key else ''}); help: {self.help}"
