"""Currencies by their ISO 4217 codes, with the decimals of the smaller unit (from memory)."""

from collections.abc import Mapping
from typing import Final

_CODES = (
    "aed afn all amd aoa ars aud awg azn bam bbd bdt bhd bif bmd bnd bob brl bsd btn bwp byn "
    "bzd cad cdf chf clp cny cop crc cup cve czk djf dkk dop dzd egp ern etb eur fjd fkp gbp "
    "gel ghs gip gmd gnf gtq gyd hkd hnl htg huf idr ils inr iqd irr isk jmd jod jpy kes kgs "
    "khr kmf kpw krw kwd kyd kzt lak lbp lkr lrd lsl lyd mad mdl mga mkd mmk mnt mop mru mur "
    "mvr mwk mxn myr mzn nad ngn nio nok npr nzd omr pab pen pgk php pkr pln pyg qar ron rsd "
    "rub rwf sar sbd scr sdg sek sgd shp sle sos srd ssp stn svc syp szl thb tjs tmt tnd top "
    "try ttd twd tzs uah ugx usd uyu uzs ves vnd vuv wst xaf xcd xof xpf yer zar zmw"
)
_WITHOUT_DECIMALS = "bif clp djf gnf isk jpy kmf krw pyg rwf ugx vnd vuv xaf xof xpf"
_WITH_THREE = "bhd iqd jod kwd lyd omr tnd"

PLACES: Final[Mapping[str, int]] = {
    **dict.fromkeys(_CODES.split(), 2),
    **dict.fromkeys(_WITHOUT_DECIMALS.split(), 0),
    **dict.fromkeys(_WITH_THREE.split(), 3),
}
"""Decimals by code, in small letters as the language writes words."""
