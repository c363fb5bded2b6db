"""The words of the language: one schema, from which everything that knows words is made."""

from casewright.compiler.words.buying import BUYING
from casewright.compiler.words.checking import CHECKING
from casewright.compiler.words.construction import CONSTRUCTION
from casewright.compiler.words.goods import GOODS
from casewright.compiler.words.kitchen import FEATURES, KITCHEN
from casewright.compiler.words.library import LIBRARY
from casewright.compiler.words.shop import SHOP
from casewright.lang.schema import schema_of

SCHEMA = schema_of(
    "file", *KITCHEN, *FEATURES, *LIBRARY, *CONSTRUCTION, *GOODS, *SHOP, *CHECKING, *BUYING
)
"""The schema of a whole text."""
