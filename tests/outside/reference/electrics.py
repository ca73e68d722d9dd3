"""Writes the electrical reference values beside this file from published libraries.

    pip install pvlib==0.16.1 pint==0.25.3 networkx==3.6.1 numpy scipy
    python electrics.py

Each table begins with the versions that made it. Nothing here uses the project's own code.
"""

import platform
import random
from pathlib import Path

import networkx
import numpy
import pint
import pvlib
import scipy
from scipy import optimize

HERE = Path(__file__).parent
MADE = (
    f"# made by electrics.py: Python {platform.python_version()}, pvlib {pvlib.__version__}, "
    f"pint {pint.__version__}, networkx {networkx.__version__}, numpy {numpy.__version__}, "
    f"scipy {scipy.__version__}\n"
)


def write(name, header, rows):
    lines = [",".join(str(cell) for cell in row) + "\n" for row in rows]
    (HERE / name).write_text(MADE + header + "\n" + "".join(lines), encoding="utf-8")


def single_diode(kind, irradiance=1000.0, cell=25.0):
    """The five values of the single-diode equation of a panel at light and cell temperature."""
    return pvlib.pvsystem.calcparams_desoto(
        irradiance, cell, kind["alpha"], kind["a"], kind["il"], kind["io"], kind["rsh"], kind["rs"],
        EgRef=1.121, dEgdT=-0.0002677,
    )


# Panels of our own, by cells in series, light current and about the open-circuit voltage by cell.
MADE_UP = {
    "thirty-six": (36, 6.1, 0.622),
    "narrow": (40, 5.8, 0.615),
    "sixty": (60, 9.97, 0.657),
    "half-cut": (66, 11.4, 0.694),
}


def kinds():
    """A panel by its single-diode parameters, and the label that these give it."""
    for name, (cells, light, by_cell) in MADE_UP.items():
        a = 1.05 * cells * 0.025693
        kind = dict(alpha=0.0005 * light, a=a, il=light, io=light / numpy.expm1(by_cell * cells / a),
                    rs=0.0052 * cells * 6 / light, rsh=60.0 * cells / light)
        at = {cell: pvlib.pvsystem.singlediode(*single_diode(kind, cell=cell)) for cell in (20.0, 25.0, 30.0)}
        voc = float(at[25.0]["v_oc"])
        label = dict(voc=voc, isc=float(at[25.0]["i_sc"]), vmp=float(at[25.0]["v_mp"]),
                     imp=float(at[25.0]["i_mp"]),
                     beta=float(at[30.0]["v_oc"] - at[20.0]["v_oc"]) / 10.0 / voc)
        yield name, {key: round(value, 6) for key, value in label.items()}, kind


KINDS = {name: (label, kind) for name, label, kind in kinds()}


def temperatures():
    """Open-circuit and working voltage of a panel from frost to heat."""
    for name, (label, kind) in KINDS.items():
        for cell in (-25.0, -10.0, 0.0, 80.0):
            found = pvlib.pvsystem.singlediode(*single_diode(kind, cell=cell))
            yield (name, label["voc"], label["isc"], label["vmp"], label["imp"],
                   round(100 * label["beta"], 6), cell, *(f"{found[key]:.9g}" for key in ("v_oc", "v_mp")))


def curve(kind, voltage):
    return float(pvlib.pvsystem.i_from_v(voltage, *single_diode(kind)))


def volts(kind, current):
    return float(pvlib.pvsystem.v_from_i(current, *single_diode(kind)))


def best(power, low, high):
    """The greatest value of a function of one peak or more: a grid, then a fine search at its top."""
    at = numpy.linspace(low, high, 400)
    found = [power(x) for x in at]
    top = int(numpy.argmax(found))
    left, right = at[max(top - 1, 0)], at[min(top + 1, len(at) - 1)]
    answer = optimize.minimize_scalar(lambda x: -power(x), bounds=(left, right), method="bounded",
                                      options={"xatol": 1e-9})
    return -float(answer.fun)


def mismatch():
    """Most power of two unlike panels, in one string without their bypass diodes, and side by side."""
    names = list(KINDS)
    for i, one in enumerate(names):
        for two in names[i:]:
            a, b = KINDS[one][1], KINDS[two][1]
            weakest = min(KINDS[one][0]["isc"], KINDS[two][0]["isc"])
            series = best(lambda c: c * (volts(a, c) + volts(b, c)), 0.0, weakest * 0.999)
            lowest = min(KINDS[one][0]["voc"], KINDS[two][0]["voc"])
            parallel = best(lambda v: v * (curve(a, v) + curve(b, v)), 0.0, lowest * 0.999)
            own = sum(float(pvlib.pvsystem.singlediode(*single_diode(k))["p_mp"]) for k in (a, b))
            labels = [KINDS[n][0] for n in (one, two)]
            yield (one, two, *(v for l in labels for v in (l["voc"], l["isc"], l["vmp"], l["imp"])),
                   *(f"{watts:.9g}" for watts in (own, series, parallel)))


def drops():
    """Ohm's law in units: resistance of class 5 copper (IEC 60228 table 3), warmed (IEC 60287)."""
    ureg = pint.UnitRegistry()
    for size, ohm_per_km in (("1.5mm2", 13.3), ("2.5mm2", 7.98), ("4mm2", 4.95), ("6mm2", 3.30),
                             ("10mm2", 1.91), ("16mm2", 1.21), ("25mm2", 0.780), ("35mm2", 0.554)):
        for celsius, feet, amperes, of in ((20, 13.0, 4.0, 12.8), (55, 41.0, 9.5, 25.6)):
            per_length = ohm_per_km * ureg.ohm / ureg.kilometer * (1 + 0.00393 * (celsius - 20))
            way = feet * ureg.foot
            drop = (per_length * 2 * way * amperes * ureg.ampere).to(ureg.volt)
            yield (size, celsius, f"{way.to(ureg.millimeter).magnitude:.9g}", amperes, of,
                   f"{drop.magnitude:.9g}", f"{(drop / (of * ureg.volt)).to('percent').magnitude:.9g}")


def networks():
    """Trees of bus bars: what flows in each run, by the greatest flow to all loads at once."""
    random.seed(20260509)
    for case in range(12):
        tree = networkx.DiGraph()
        tree.add_node("battery")
        bars = ["battery"]
        for n in range(random.randint(1, 4)):
            bar = f"bar {n}"
            tree.add_edge(random.choice(bars), bar)
            bars.append(bar)
        loads = {}
        for n in range(random.randint(3, 7)):
            load = f"load {n}"
            loads[load] = random.randint(5, 80) / 10
            tree.add_edge(random.choice(bars), load)
        # A bar without a load is no bar.
        for bar in bars[1:]:
            if tree.out_degree(bar) == 0:
                load = f"load {bar}"
                loads[load] = 1.5
                tree.add_edge(bar, load)
        # Demands in tenths of an ampere, so that flows are whole.
        for node in tree:
            tree.nodes[node]["demand"] = round(10 * loads.get(node, 0.0))
        tree.nodes["battery"]["demand"] = -sum(round(10 * amps) for amps in loads.values())
        flow = networkx.min_cost_flow(tree)
        for start, end in networkx.bfs_edges(tree, "battery"):
            yield case, start, end, loads.get(end, ""), flow[start][end] / 10


if __name__ == "__main__":
    write("panel_voltages.csv", "kind,voc,isc,vmp,imp,%/K,°C,open V,working V", temperatures())
    write("panel_mismatch.csv",
          "one,two,voc 1,isc 1,vmp 1,imp 1,voc 2,isc 2,vmp 2,imp 2,own W,series W,parallel W", mismatch())
    write("voltage_drops.csv", "size,°C,one way mm,A,of V,V,%", drops())
    write("bus_bars.csv", "case,from,to,load A,flow A", networks())
