"""Reference values of the sun for the tests of crates/calc, by a well-known library; writes sun_reference.json beside this file.

* year: equation of time and irradiance above the air by NREL's solar position algorithm, at noon, in a common and a leap year.
* position: the sun's true and apparent zenith and azimuth by NREL's solar position algorithm, at longitude 0.
* geometry: zenith and azimuth by spherical trigonometry from given angles (pvlib, the same formulas).
* refraction, air_mass, pressure, clear_sky, plane, cell, power, losses: single functions of pvlib, the same models.
* clear_day: a whole clear day by pvlib's own chain (NREL positions, Ineichen, Hay and Davies, Ross, PVWatts) in minutes: J/m2 level, J/m2
  and J/W on planes.
* mean_day: the mean day of a month in minutes, its course by Collares-Pereira and Rabl and by Liu and Jordan and its diffuse share by Erbs
  written out here, transposition by pvlib.
* typical_year: monthly means on planes from the hourly beam and diffuse values of a TMY3 file that pvlib ships (Greensboro, public domain).

Run: python make_sun_reference.py
"""

import json
import pathlib
import sys

import numpy as np
import pandas as pd
import pvlib
from pvlib import atmosphere, clearsky, irradiance, pvsystem, solarposition, spa, temperature

SOLAR_CONSTANT = 1361.0
LATITUDES = [35.0, 45.0, 52.0, 60.0, -37.0]
MEAN_DAYS = [17, 47, 75, 105, 135, 162, 198, 228, 258, 288, 318, 344]
TURBIDITY, ALTITUDE, ALBEDO = 3.0, 100.0, 0.2
COEFFICIENT, RISE, AIR = -0.0037, 0.0342, 15.0
out = {"versions": {"python": sys.version.split()[0], "pvlib": pvlib.__version__, "numpy": np.__version__, "pandas": pd.__version__}}


def rounded(value):
    """Twelve figures."""
    return float(f"{float(value):.12g}")


def put(kind, **row):
    out.setdefault(kind, []).append({key: rounded(value) if isinstance(value, (float, np.floating)) else value for key, value in row.items()})


def noon(year, day):
    return pd.DatetimeIndex([pd.Timestamp(year, 1, 1, 12, tz="UTC") + pd.Timedelta(days=day - 1)])


def above_air(day, year=2023):
    return float(irradiance.get_extra_radiation(noon(year, day), solar_constant=SOLAR_CONSTANT, method="nrel").iloc[0])


def declination_of(day):
    """From the sun's true height at its noon over the equator."""
    sun = solarposition.get_solarposition(noon(2023, day), 0.0, 0.0, method="nrel_numpy").iloc[0]
    offset = pd.Timedelta(minutes=-float(sun["equation_of_time"]))
    sun = solarposition.get_solarposition(noon(2023, day) + offset, 0.0, 0.0, method="nrel_numpy").iloc[0]
    return np.radians(sun["zenith"] if sun["azimuth"] < 90.0 or sun["azimuth"] > 270.0 else -sun["zenith"])


for year in (2023, 2024):
    for day in [1, 32, 60, 80, 100, 150, 172, 200, 250, 266, 300, 335, 355, 365]:
        minutes_ahead = solarposition.get_solarposition(noon(year, day), 0.0, 0.0, method="nrel_numpy")["equation_of_time"].iloc[0]
        put("year", year=year, day=day, equation_of_time=60.0 * float(minutes_ahead), above_air=above_air(day, year),
            declination=float(declination_of(day)))

for latitude in LATITUDES:
    for year in (2023, 2024):
        for day in (17, 75, 80, 162, 258, 344):
            for hour in (6.5, 9.0, 11.25, 13.75, 16.0):
                time = pd.DatetimeIndex([pd.Timestamp(year, 1, 1, tz="UTC") + pd.Timedelta(days=day - 1, hours=hour)])
                sun = solarposition.get_solarposition(time, latitude, 0.0, altitude=0.0, method="nrel_numpy").iloc[0]
                if sun["elevation"] > 0.0:
                    put("position", latitude=latitude, year=year, day=day, utc_seconds=hour * 3600.0, zenith=sun["zenith"],
                        apparent_zenith=sun["apparent_zenith"], azimuth=sun["azimuth"])
    for day in (17, 75, 162, 344):
        for seconds in (20000.0, 30000.0, 39000.0, 50000.0, 61000.0):
            declination = float(declination_of(day))
            hour = np.radians(seconds / 240.0 - 180.0)
            zenith = solarposition.solar_zenith_analytical(np.radians(latitude), hour, declination)
            azimuth = solarposition.solar_azimuth_analytical(np.radians(latitude), hour, declination, zenith)
            put("geometry", latitude=latitude, declination=declination, solar_seconds=seconds, zenith=float(zenith), azimuth=float(azimuth))

for elevation in (-0.5, 0.0, 1.0, 5.0, 10.0, 30.0, 60.0, 89.0):
    put("refraction", elevation=elevation,
        degrees=float(spa.atmospheric_refraction_correction(1013.25, 12.0, np.array([elevation]), 0.5667)[0]))

for metres in (0.0, 100.0, 800.0, 2500.0):
    put("pressure", metres=metres, pascals=float(atmosphere.alt2pres(metres)))

for zenith in (0.0, 20.0, 45.0, 60.0, 75.0, 85.0, 89.5):
    relative = float(atmosphere.get_relative_airmass(zenith))
    put("air_mass", zenith=zenith, mass=relative)
    for metres, turbidity in ((0.0, 2.0), (100.0, 3.0), (800.0, 4.5), (2500.0, 3.0)):
        absolute = atmosphere.get_absolute_airmass(relative, atmosphere.alt2pres(metres))
        light = clearsky.ineichen(zenith, absolute, turbidity, metres, 1340.0)
        put("clear_sky", zenith=zenith, metres=metres, turbidity=turbidity, above_air=1340.0, ghi=float(light["ghi"]),
            dni=float(light["dni"]), dhi=float(light["dhi"]))

for tilt in (0.0, 20.0, 45.0, 90.0):
    for facing in (180.0, 90.0, 300.0):
        for zenith, azimuth, dni, ghi, dhi in ((30.0, 170.0, 850.0, 830.0, 94.0), (70.0, 120.0, 500.0, 260.0, 89.0), (88.0, 230.0, 80.0, 25.0, 22.0)):
            row = {"tilt": tilt, "facing": facing, "zenith": zenith, "azimuth": azimuth, "dni": dni, "ghi": ghi, "dhi": dhi, "above_air": 1360.0}
            for model in ("isotropic", "haydavies"):
                row[model] = float(irradiance.get_total_irradiance(tilt, facing, zenith, azimuth, dni, ghi, dhi, dni_extra=1360.0,
                                                                   albedo=ALBEDO, model=model)["poa_global"])
            put("plane", **row)

for light, air, noct in ((0.0, 5.0, 45.0), (800.0, 20.0, 47.0), (1000.0, 35.0, 60.0)):
    put("cell", irradiance=light, air=air, rise=(noct - 20.0) / 800.0, cell=float(temperature.ross(light, air, noct=noct)))
for light, cell in ((800.0, 45.0), (1000.0, 25.0), (300.0, -5.0), (1000.0, 70.0)):
    put("power", rated=100.0, irradiance=light, cell=cell, coefficient=COEFFICIENT, watts=float(pvsystem.pvwatts_dc(light, cell, 100.0, COEFFICIENT)))
put("losses", percent=float(pvsystem.pvwatts_losses()))

minutes = np.arange(1440) + 0.5
PLANES = [(0.0, 180.0), (30.0, 180.0), (60.0, 180.0), (30.0, 90.0), (90.0, 180.0)]


def facing(latitude, azimuth):
    """Planes of the south face north."""
    return azimuth if latitude > 0 or azimuth == 90.0 else 0.0


for latitude in LATITUDES:
    for month in (1, 3, 6, 9, 12):
        day = MEAN_DAYS[month - 1]
        times = pd.DatetimeIndex(pd.Timestamp(2023, 1, 1, tz="UTC") + pd.to_timedelta((day - 1) * 1440 + minutes, unit="min"))
        sun = solarposition.get_solarposition(times, latitude, 0.0, altitude=ALTITUDE)
        mass = atmosphere.get_absolute_airmass(atmosphere.get_relative_airmass(sun["apparent_zenith"]), atmosphere.alt2pres(ALTITUDE))
        light = clearsky.ineichen(sun["apparent_zenith"], mass, TURBIDITY, ALTITUDE, above_air(day))
        for tilt, azimuth in PLANES:
            azimuth = facing(latitude, azimuth)
            plane = irradiance.get_total_irradiance(tilt, azimuth, sun["apparent_zenith"], sun["azimuth"], light["dni"], light["ghi"],
                                                    light["dhi"], dni_extra=above_air(day), albedo=ALBEDO, model="haydavies")["poa_global"].fillna(0.0)
            watts = pvsystem.pvwatts_dc(plane, temperature.ross(plane, AIR, k=RISE), 1.0, COEFFICIENT)
            put("clear_day", latitude=latitude, month=month, tilt=tilt, facing=azimuth, level=60.0 * float(light["ghi"].sum()),
                plane=60.0 * float(plane.sum()), array=60.0 * float(watts.sum()))


def daily_above_air(latitude, day):
    declination, angle = float(declination_of(day)), np.radians(latitude)
    sunset = np.arccos(np.clip(-np.tan(angle) * np.tan(declination), -1.0, 1.0))
    return 86400.0 / np.pi * above_air(day) * (np.cos(angle) * np.cos(declination) * np.sin(sunset) + sunset * np.sin(angle) * np.sin(declination)), sunset, declination


for latitude in LATITUDES:
    for month, index in ((1, 0.35), (3, 0.45), (6, 0.5), (9, 0.6), (12, 0.3)):
        day = MEAN_DAYS[month - 1]
        top, sunset, declination = daily_above_air(latitude, day)
        daily = index * top
        hour = np.radians(minutes / 4.0 - 180.0)
        height = np.where(np.abs(hour) < sunset, np.cos(hour) - np.cos(sunset), 0.0)
        wave = np.sin(sunset - np.pi / 3)
        course = (0.409 + 0.5016 * wave + (0.6609 - 0.4767 * wave) * np.cos(hour)) * height
        k = index
        share = 1.391 - 3.560 * k + 4.189 * k**2 - 2.137 * k**3 if np.degrees(sunset) <= 81.4 else 1.311 - 3.022 * k + 3.427 * k**2 - 1.821 * k**3
        ghi = daily * course / (course.sum() * 60.0)
        dhi = np.minimum(daily * share * height / (height.sum() * 60.0), ghi)
        zenith = solarposition.solar_zenith_analytical(np.radians(latitude), hour, declination)
        azimuth = np.degrees(solarposition.solar_azimuth_analytical(np.radians(latitude), hour, declination, zenith))
        elevation = 90.0 - np.degrees(zenith)
        apparent = 90.0 - elevation - np.array(spa.atmospheric_refraction_correction(1013.25, 12.0, elevation, 0.5667))
        cosine = np.cos(np.radians(apparent))
        dni = np.where(ghi > 0, np.clip((ghi - dhi) / np.maximum(cosine, 1e-6), 0.0, above_air(day)), 0.0)
        dhi = ghi - dni * np.maximum(cosine, 0.0)
        for tilt, azimuth_of_plane in PLANES:
            turned = facing(latitude, azimuth_of_plane)
            plane = irradiance.get_total_irradiance(tilt, turned, apparent, azimuth, dni, ghi, dhi, dni_extra=above_air(day), albedo=ALBEDO,
                                                    model="haydavies")["poa_global"]
            put("mean_day", latitude=latitude, month=month, tilt=tilt, facing=turned, daily=float(daily), diffuse=float(dhi.sum() * 60.0),
                plane=float(np.nansum(np.where(ghi > 0, plane, 0.0)) * 60.0))

folder = pathlib.Path(pvlib.__file__).parent / "data"
data, place = pvlib.iotools.read_tmy3(folder / "723170TYA.CSV", coerce_year=1990, map_variables=True)
# Values are means of the hour that ends at the time given.
sun = solarposition.get_solarposition(data.index - pd.Timedelta(minutes=30), place["latitude"], place["longitude"])
sun.index = data.index
month = (data.index - pd.Timedelta(minutes=30)).month
for tilt, azimuth in PLANES:
    plane = irradiance.get_total_irradiance(tilt, azimuth, sun["apparent_zenith"], sun["azimuth"], data["dni"], data["ghi"], data["dhi"],
                                            dni_extra=data["dni_extra"].where(data["dni_extra"] > 0, SOLAR_CONSTANT), albedo=ALBEDO, model="haydavies")["poa_global"].fillna(0.0)
    for number in range(1, 13):
        inside = month == number
        days = inside.sum() / 24.0
        put("typical_year", latitude=float(place["latitude"]), month=number, tilt=tilt, facing=azimuth,
            level=3600.0 * float(data["ghi"][inside].sum()) / days, plane=3600.0 * float(plane[inside].sum()) / days)

# One row a line, so that a change shows in a comparison of texts.
with open(pathlib.Path(__file__).with_name("sun_reference.json"), "w") as file:
    lines = [f' "versions": {json.dumps(out.pop("versions"))}']
    for kind, rows in out.items():
        lines.append(f' "{kind}": [\n' + ",\n".join("  " + json.dumps(row) for row in rows) + "\n ]")
    file.write("{\n" + ",\n".join(lines) + "\n}\n")
