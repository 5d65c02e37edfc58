"""What Lamproom says: one catalogue of sentences for screen, page and command line."""

from lamproom.words.sentence import Refusal, Sentence, say, say_count, sentence

__all__ = ["Refusal", "Sentence", "say", "say_count", "sentence"]
