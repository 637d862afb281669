#!/usr/bin/env python3
"""Writes data/crs/*.json from the PROJ database: how to compute every EPSG projected and geographic CRS without grids.

    python3 scripts/crs-table.py            (needs PROJ's projinfo and its proj.db, Debian package proj-bin; about 5 minutes)

For each CRS, `projinfo EPSG:n -o PROJ` gives the projection, and the first operation of
`projinfo -s EPSG:n -t EPSG:4326 --spatial-test intersects --grid-check none` that needs no grid gives the datum shift to
WGS 84 with its accuracy. A shift that cannot be written as seven parameters is passed over for the next one.
A row is one string, `code|name|projection|shift|west,south,east,north`; shifts are stored once and named by their index.
"""
import collections
import json
import pathlib
import re
import sqlite3
import subprocess
from concurrent.futures import ThreadPoolExecutor

DATABASE = '/usr/share/proj/proj.db'
OUT = pathlib.Path(__file__).resolve().parent.parent / 'data' / 'crs'
# Methods that the JavaScript library computes; `tests/geodesy/crs-table.test.ts` checks its answers against cs2cs.
METHODS = set(
    'longlat utm tmerc merc lcc aea laea stere sterea somerc omerc krovak cass cea eqc poly nzmg aeqd eqdc bonne'.split()
)
# Ellipsoids that the library does not know by name, as `proj -le` lists them.
SPELT_OUT = {'+ellps=WGS72': '+a=6378135 +rf=298.26', '+ellps=GSK2011': '+a=6378136.5 +rf=298.2564151'}
# Variants of a method that the library would take for the plain one.
NOT_COMPUTED = ('+hyperbolic', '+guam')
ELLIPSOID_OF_DATUM = {'NAD27': '+ellps=clrk66', 'NAD83': '+ellps=GRS80'}
UNKNOWN_ACCURACY = None


def ask(*arguments):
    done = subprocess.run(['projinfo', *arguments], capture_output=True, text=True)
    return done.stdout


def projection_of(code):
    """The proj string without what every row would repeat; None where PROJ has no such string."""
    lines = [line for line in ask(f'EPSG:{code}', '-o', 'PROJ', '-q').splitlines() if line.startswith('+proj=')]
    if not lines:
        return None
    words = []
    for word in lines[0].split():
        key, _, value = word.partition('=')
        if word in ('+no_defs', '+type=crs', '+units=m', '+wktext'):
            continue
        if key == '+towgs84' or key == '+geoidgrids' or key == '+vunits':
            continue
        if not word.startswith('+'):
            continue  # PROJ prints krovak's fixed azimuth without its plus sign
        if key == '+datum' and value in ELLIPSOID_OF_DATUM:
            word = ELLIPSOID_OF_DATUM[value]
        words.append(SPELT_OUT.get(word, word))
    return ' '.join(words)


def parameters(step):
    return dict(part[1:].split('=', 1) if '=' in part else (part[1:], '') for part in step.split())


NOT_SEVEN_PARAMETERS = ('hgridshift', 'vgridshift', 'gridshift', 'xyzgridshift', 'deformation', 'geogoffset', 'horner')
NO_SHIFT = ([0.0] * 3, [0.0] * 3, 0.0)
SECOND = 3.141592653589793 / 648000


def seven_parameters(pipeline):
    """Datum shift of a pipeline as position-vector parameters: [] for none, None where it is not of that kind."""
    shift = NO_SHIFT
    for step in pipeline.split(' +step ')[1:]:
        p = parameters(step)
        if p['proj'] in NOT_SEVEN_PARAMETERS:
            return None
        if p['proj'] not in ('helmert', 'molobadekas'):
            continue
        if 't_epoch' in p or any(k in p for k in ('dx', 'dy', 'dz', 'drx', 'dry', 'drz', 'ds')):
            return None
        shift = one_after_the_other(shift, single_shift(p))
    translation, rotation, scale = shift
    if not any(translation) and not any(rotation) and not scale:
        # Between two ellipsoids with one centre latitudes still change a little.
        return [0.0, 0.0, 0.0] if '+proj=cart' in pipeline else []
    return translation + ([*rotation, scale] if any(rotation) or scale else [])


def single_shift(p):
    translation = [float(p.get(k, 0)) for k in 'xyz']
    rotation = [float(p.get(k, 0)) for k in ('rx', 'ry', 'rz')]
    scale = float(p.get('s', 0))
    if p.get('convention') == 'coordinate_frame':
        rotation = [-r for r in rotation]
    if p['proj'] == 'molobadekas':
        # It turns about a point; T + P - (1 + s) R P turns about the centre of the ellipsoid instead.
        pivot = [float(p[k]) for k in ('px', 'py', 'pz')]
        turned = turn(pivot, rotation, scale)
        translation = [round(translation[i] + pivot[i] - turned[i], 5) for i in range(3)]
    if 'inv' in p:
        rotation, scale = [-r for r in rotation], (1 / (1 + scale * 1e-6) - 1) * 1e6
        translation = [round(-v, 5) for v in turn(translation, rotation, scale)]
    return translation, rotation, scale


def turn(point, rotation, scale):
    """(1 + s) R point, R for small angles."""
    rx, ry, rz = (r * SECOND for r in rotation)
    x, y, z = point
    return [(1 + scale * 1e-6) * v for v in (x - rz * y + ry * z, rz * x + y - rx * z, -ry * x + rx * y + z)]


def one_after_the_other(first, second):
    """X -> T2 + (1 + s2) R2 (T1 + (1 + s1) R1 X); products of small angles are left out (below a millimetre)."""
    if first == NO_SHIFT:
        return second
    moved = turn(first[0], second[1], second[2])
    return (
        [round(a + b, 5) for a, b in zip(second[0], moved)],
        [a + b for a, b in zip(first[1], second[1])],
        first[2] + second[2],
    )


def meridian_of(pipeline):
    """Prime meridian that an operation turns by: some name another than the projection, or one where it has none."""
    for step in pipeline.split(' +step ')[1:]:
        p = parameters(step)
        if p['proj'] == 'longlat' and 'pm' in p:
            return f"+pm={p['pm']}"
    return None


def number(value):
    text = f'{value:.7g}' if abs(value) < 1000 else f'{value:.10g}'
    return '0' if text in ('-0', '0') else text


def shift_of(code):
    """((name, accuracy in m or None, seven parameters as text), meridian) of the best operation to WGS 84 without a grid."""
    text = ask('-s', f'EPSG:{code}', '-t', 'EPSG:4326', '--spatial-test', 'intersects', '--grid-check', 'none',
               '-o', 'PROJ', '--single-line')
    for part in re.split(r'^-{10,}$', text, flags=re.M)[1:] or [text]:
        lines = [line for line in part.splitlines() if line.strip()]
        title = next((line for line in lines if re.match(r'.*, (unknown accuracy|[\d.]+ m), ', line)), None)
        pipeline = next((line for line in lines if line.startswith('+proj=')), None)
        if title is None or pipeline is None or 'grid missing' in title:
            continue
        found = seven_parameters(pipeline)
        if found is None:
            continue
        accuracy = re.search(r', (unknown accuracy|[\d.]+ m), ', title).group(1)
        name = title[: title.index(f', {accuracy}, ')].split(', ', 1)[-1]
        name = name.split(' + ', 1)[-1] if name.startswith('Inverse of') and ' + ' in name else name
        metres = UNKNOWN_ACCURACY if accuracy == 'unknown accuracy' or 'ballpark' in title.lower() else float(accuracy[:-2])
        if metres == 0 and not found:
            name = 'already WGS 84'
        return (tidy(name), metres, ','.join(number(v) for v in found)), meridian_of(pipeline)
    return ('no operation known', UNKNOWN_ACCURACY, ''), None


def tidy(name):
    """The operation's name without the changes of representation on the way."""
    return ' + '.join(part for part in name.split(' + ') if not part.startswith('Conversion from'))


def extents(database, table):
    rows = database.execute(
        """select u.object_code, min(e.west_lon), min(e.south_lat), max(e.east_lon), max(e.north_lat), count(*)
           from usage u join extent e on e.auth_name = u.extent_auth_name and e.code = u.extent_code
           where u.object_table_name = ? and u.object_auth_name = 'EPSG' group by u.object_code""", (table,))
    return {str(code): (w, s, e, n) for code, w, s, e, n, _ in rows if None not in (w, s, e, n)}


def crs_rows(database):
    projected = database.execute("select code, name from projected_crs where auth_name = 'EPSG'").fetchall()
    geographic = database.execute(
        "select code, name from geodetic_crs where auth_name = 'EPSG' and type = 'geographic 2D'").fetchall()
    boxes = extents(database, 'projected_crs') | extents(database, 'geodetic_crs')
    return sorted((int(c), n, boxes.get(str(c), ())) for c, n in projected + geographic)


def unusual_axes(database):
    """Codes whose coordinates do not run east and north in metres, feet or degrees: they would be read wrongly."""
    rows = database.execute(
        """select c.code from (select auth_name, code, coordinate_system_auth_name s, coordinate_system_code n
                              from projected_crs union all
                              select auth_name, code, coordinate_system_auth_name, coordinate_system_code
                              from geodetic_crs) c
           join axis a on a.coordinate_system_auth_name = c.s and a.coordinate_system_code = c.n
           join unit_of_measure u on u.auth_name = a.uom_auth_name and u.code = a.uom_code
           where c.auth_name = 'EPSG' and (a.orientation in ('west', 'south') or u.name = 'grad')""")
    return {int(code) for code, in rows}


# PROJ takes the operation of the place; where a code's area falls to several, the one of its larger part is taken here.
FITTER = {5514: (('S-JTSK to WGS 84 (5)', 1.0, '572.213,85.334,461.94,4.9732,1.529,5.2484,3.5378'), None)}


def row_of(entry):
    code, name, box = entry
    projection = None if code in UNUSUAL_AXES else projection_of(code)
    method = parameters(projection)['proj'] if projection else None
    if method not in METHODS or any(word in projection for word in NOT_COMPUTED):
        return code, name, None, None, box
    shift, meridian = FITTER.get(code) or shift_of(code)
    if meridian and meridian not in projection.split():
        projection = ' '.join([w for w in projection.split() if not w.startswith('+pm=')] + [meridian])
    return code, name, projection, shift, box


def write(name, value):
    (OUT / name).write_text(json.dumps(value, ensure_ascii=False, indent=1) + '\n', encoding='utf-8')


UNUSUAL_AXES = set()


def write_horizontal(database, source):
    UNUSUAL_AXES.update(unusual_axes(database))
    with ThreadPoolExecutor(2) as pool:
        rows = list(pool.map(row_of, crs_rows(database)))
    shifts, blocks, refused = {}, collections.defaultdict(list), []
    for code, name, projection, shift, box in rows:
        if projection is None:
            refused.append(f'{code}|{name}')
            continue
        index = shifts.setdefault(shift, len(shifts))
        edges = ','.join(f'{round(v, 2):g}' for v in box)
        blocks[code // 1000].append(f'{code}|{name}|{projection}|{index}|{edges}')
    for old in OUT.glob('epsg-*.json'):
        old.unlink()
    # Rare thousands share one file.
    common = {2, 3, 4, 5, 6, 7, 8, 20, 21, 22, 23, 24, 25, 26, 27, 28, 29, 30, 31, 32}
    for thousand in sorted(common):
        write(f'epsg-{thousand}.json', {'source': source, 'rows': blocks.pop(thousand, [])})
    write('epsg-other.json', {'source': source, 'rows': [row for rows in blocks.values() for row in rows]})
    write('shifts.json', {'source': source, 'rows': ['|'.join([n, '' if a is None else f'{a:g}', p]) for n, a, p in shifts]})
    write('refused.json', {'source': source, 'rows': refused})


def write_vertical(database, source):
    rows = database.execute(
        """select v.code, v.name, a.orientation, u.name from vertical_crs v
           join axis a on a.coordinate_system_auth_name = v.coordinate_system_auth_name
             and a.coordinate_system_code = v.coordinate_system_code
           join unit_of_measure u on u.auth_name = a.uom_auth_name and u.code = a.uom_code
           where v.auth_name = 'EPSG' order by cast(v.code as integer)""").fetchall()
    write('vertical.json', {'source': source, 'rows': [f'{c}|{n}|{o}|{u}' for c, n, o, u in rows]})
    rows = database.execute(
        """select code, name, horiz_crs_code, vertical_crs_code from compound_crs
           where auth_name = 'EPSG' and horiz_crs_auth_name = 'EPSG' and vertical_crs_auth_name = 'EPSG'
           order by cast(code as integer)""").fetchall()
    write('compound.json', {'source': source, 'rows': [f'{c}|{n}|{h}|{v}' for c, n, h, v in rows]})


def main():
    OUT.mkdir(parents=True, exist_ok=True)
    database = sqlite3.connect(f'file:{DATABASE}?mode=ro', uri=True)
    facts = dict(database.execute('select key, value from metadata').fetchall())
    source = (f"EPSG Geodetic Parameter Dataset {facts['EPSG.VERSION']} (IOGP), by way of PROJ {facts['PROJ.VERSION']}'s "
              'database; written by scripts/crs-table.py')
    write_vertical(database, source)
    write_horizontal(database, source)


if __name__ == '__main__':
    main()
