"""Weather stations for the tests of crates/calc: what the heads of the weather files in three packages of the registry say; writes
climate_reference.json beside this file. The weather itself is not kept.

The second line of such a file ends with the extremes: three wind speeds, the highest wet bulb, then the means of each year's lowest and highest
dry-bulb temperature (format: the public data dictionary of the weather files).

Run: pip download --no-deps --dest packages -r requirements-climate.txt && python make_climate_reference.py packages
"""

import json
import pathlib
import sys
import tarfile
import zipfile

# What our table calls a station, by its number at the World Meteorological Organization.
WORDS = {
    "030910": "aberdeen", "670830": "antananarivo", "802220": "bogota", "725300": "chicago", "725650": "denver", "084190": "granada",
    "029740": "helsinki", "085360": "lisbon", "037760": "london", "744860": "new-york", "725205": "pittsburgh", "727885": "port-angeles",
    "083910": "seville", "024600": "stockholm", "947670": "sydney", "477150": "tokyo", "722745": "tucson",
}


def heads(package):
    """The first two lines of each weather file of a package."""
    if package.suffix == ".whl":
        with zipfile.ZipFile(package) as archive:
            for name in archive.namelist():
                if name.endswith(".epw"):
                    with archive.open(name) as file:
                        yield [file.readline().decode("utf-8", "replace").strip() for _ in range(2)]
    else:
        with tarfile.open(package) as archive:
            for member in archive:
                if member.name.endswith(".epw"):
                    file = archive.extractfile(member)
                    yield [file.readline().decode("utf-8", "replace").strip() for _ in range(2)]


stations = {}
packages = sorted(path for path in pathlib.Path(sys.argv[1]).iterdir() if path.suffix in {".whl", ".gz"})
for package in packages:
    for location, design in heads(package):
        fields, conditions = location.split(","), design.split(",")
        if fields[5] not in WORDS or "Extremes" not in conditions:
            continue
        extremes = [float(number) for number in conditions[conditions.index("Extremes") + 1 :]]
        stations[WORDS[fields[5]]] = {"latitude": float(fields[6]), "coldest": extremes[4], "hottest": extremes[5]}

written = {"packages": [package.name for package in packages], "stations": dict(sorted(stations.items()))}
path = pathlib.Path(__file__).with_name("climate_reference.json")
path.write_text(json.dumps(written, indent=1) + "\n")
