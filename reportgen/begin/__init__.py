"""A first season.toml for a folder of exports: guesses where the files show it, questions where only a person knows."""

from reportgen.begin.start import AlreadyBegun, BeginResult, begin

__all__ = ["AlreadyBegun", "BeginResult", "begin"]
