"""Moist air by psychrolib: saturation pressure (Pa), dew point (°C), water in a cubic metre (g).

    pip install psychrolib==2.5.0
    python tests/outside/reference/moist_air.py > tests/outside/reference/moist_air.csv

Above freezing only: at and below it the library turns from water to ice.
"""

import importlib.metadata

import psychrolib

psychrolib.SetUnitSystem(psychrolib.SI)
GAS = 461.5  # J/(kg K), water vapour

print(f"# psychrolib {importlib.metadata.version('psychrolib')}, written by moist_air.py")
print("celsius,percent,saturation,dew,water")
for celsius in (1, 5, 10, 15, 20, 23, 25, 30, 35, 40):
    for percent in (20, 30, 40, 50, 60, 70, 80, 90, 100):
        saturation = psychrolib.GetSatVapPres(celsius)
        vapour = saturation * percent / 100.0
        dew = psychrolib.GetTDewPointFromRelHum(celsius, percent / 100.0)
        water = vapour / (GAS * (celsius + 273.15)) * 1000.0
        if dew > 0.1:
            print(f"{celsius},{percent},{saturation:.2f},{dew:.4f},{water:.4f}")
