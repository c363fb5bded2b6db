"""Sets pages: templates, figures that are explained where they stand, and drawings with ids."""

from functools import cache
from importlib.resources import files
from typing import Any

from attrs import define, field
from jinja2 import Environment, FunctionLoader, StrictUndefined
from markupsafe import Markup, escape

from casewright.compiler.papers.drawings.drawing import Drawing
from casewright.compiler.papers.figures import Figure, Note, exactly, marked, read
from casewright.compiler.papers.names import words
from casewright.lang.measure import Measure
from casewright.lang.printing import NO_BREAK, Printing, bare


def template_text(name: str) -> str:
    """A file of `templates/` as text."""
    return (files("casewright.compiler.papers") / "templates" / name).read_text(encoding="utf-8")


@cache
def environment() -> Environment:
    """Templates that escape whatever is put in, and refuse a name that isn't there."""
    made = Environment(
        loader=FunctionLoader(template_text),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["words"] = words
    return made


@define
class Press:
    """Sets one book. It remembers every figure it printed, so that each can be explained."""

    printing: Printing
    figures: dict[str, Figure] = field(factory=dict)
    _drawings: int = 0

    def set(self, template: str, **values: Any) -> Markup:
        """The template filled in; in it this press is `press`."""
        return Markup(environment().get_template(template).render(press=self, **values))

    def fig(self, figure: Figure) -> Markup:
        """A figure with its shade, explained at its address."""
        return self._why(figure, marked(figure.measure, self.printing))

    def plain(self, figure: Figure) -> Markup:
        """A figure without its shade."""
        return self._why(figure, read(figure.measure, self.printing))

    def exact(self, figure: Figure) -> Markup:
        """A figure with its shade and, where it is rounded, what it is exactly. One that stands at
        no address is not explained."""
        text = marked(figure.measure, self.printing)
        fine = exactly(figure.measure, self.printing)
        shown = self._why(figure, text) if figure.address else escape(text)
        return Markup("{} ({})").format(shown, fine) if fine else shown

    def exact_note(self, note: Note) -> Markup:
        """Words with exact figures among them."""
        return Markup("").join(
            self.exact(piece) if isinstance(piece, Figure) else escape(piece) for piece in note
        )

    def bare(self, measure: Measure | None) -> str:
        """A figure that is no quantity of the job: a row of a sum."""
        return "" if measure is None else bare(measure, self.printing, blank=NO_BREAK)

    def note(self, note: Note) -> Markup:
        """Words with figures among them."""
        return Markup("").join(
            self.fig(piece) if isinstance(piece, Figure) else escape(piece) for piece in note
        )

    def draw(self, drawing: Drawing) -> Markup:
        """A drawing in the page, under an id of its own."""
        self._drawings += 1
        for letters in drawing.letters:
            if letters.figure is not None:
                self._remember(letters.figure)
        return Markup(drawing.svg(f"drawing-{self._drawings}"))

    def _why(self, figure: Figure, text: str) -> Markup:
        self._remember(figure)
        return Markup('<a class="why" data-why="{0}" href="#why-{0}">{1}</a>').format(
            figure.address, text
        )

    def _remember(self, figure: Figure) -> None:
        self.figures.setdefault(figure.address, figure)
        for term in figure.terms:
            self._remember(term.figure)


def set_piece(template: str, **values: Any) -> str:
    """A piece of the book around its pages' bodies."""
    return environment().get_template(template).render(**values)
