"""What limits may be put on: every quantity that is measured in a job, by its word."""

from collections.abc import Mapping

from casewright.compiler.yardstick import LENGTH, Kind

QUANTITIES: Mapping[str, Kind] = {
    "counter_height": LENGTH,
}
