#!/usr/bin/env python3
"""Writes tests/geodesy/crs-values.json: coordinates by PROJ's cs2cs and cct in some 500 CRS spread over the world.

    python3 scripts/crs-check-values.py     (needs cs2cs and proj.db of Debian's proj-bin)

Where the CRS needs no datum shift the value is that of `cs2cs -f %.9f EPSG:4326 EPSG:n`; where it does, that of
`cct -d 9 -I PIPELINE`, the pipeline being that of the table's operation by the `projinfo -s EPSG:n -t EPSG:4326
--spatial-test intersects --grid-check none -o PROJ`, since cs2cs would take another operation in some places.
For every method and ellipsoid of the table a few codes, and every twentieth code beside; the places are the middle of the CRS's area
of use and one towards its north-east. Both
print in the axis order of the CRS; here it is turned to east, north.
"""
import json
import pathlib
import re
import sqlite3
import subprocess

HERE = pathlib.Path(__file__).resolve().parent.parent
EVERY = 20
A_FEW = 4


def table_rows():
    for file in sorted((HERE / 'data' / 'crs').glob('epsg-*.json')):
        for row in json.loads(file.read_text(encoding='utf-8'))['rows']:
            yield row.split('|')


def chosen(rows):
    seen = {}
    for index, row in enumerate(sorted(rows, key=lambda r: int(r[0]))):
        words = dict(w[1:].split('=', 1) for w in row[2].split() if '=' in w)
        marks = [words['proj'], words.get('ellps', words.get('a', '')), words.get('units', ''), words.get('pm', '')]
        new = any(seen.get((k, m), 0) < A_FEW for k, m in enumerate(marks) if m)
        if row[4] and (new or index % EVERY == 0):
            for k, mark in enumerate(marks):
                seen[k, mark] = seen.get((k, mark), 0) + 1
            yield row


def north_first(database, code):
    row = database.execute(
        """select a.orientation, a.name from (select auth_name, code, coordinate_system_auth_name s, coordinate_system_code n
                                              from projected_crs union all
                                              select auth_name, code, coordinate_system_auth_name, coordinate_system_code
                                              from geodetic_crs) c
           join axis a on a.coordinate_system_auth_name = c.s and a.coordinate_system_code = c.n
             and a.coordinate_system_order = 1 where c.auth_name = 'EPSG' and c.code = ?""", (code,)).fetchone()
    return row[0] == 'north' or row[1] in ('Northing', 'Geodetic latitude')


def places(box):
    west, south, east, north = (float(v) for v in box.split(','))
    east += 360 if east < west else 0
    for share in (0.5, 0.8):
        lon = west + share * (east - west)
        yield round((lon + 180) % 360 - 180, 3), round(south + share * (north - south), 3)


def pipeline_of(code, operation):
    text = subprocess.run(['projinfo', '-s', f'EPSG:{code}', '-t', 'EPSG:4326', '--spatial-test', 'intersects',
                           '--grid-check', 'none', '-o', 'PROJ', '--single-line'], capture_output=True, text=True).stdout
    for part in re.split(r'^-{10,}$', text, flags=re.M)[1:] or [text]:
        lines = [line for line in part.splitlines() if line.strip()]
        if any(operation in line for line in lines):
            return next(line for line in lines if line.startswith('+proj='))
    return None


def asked(code, shift, spots):
    text = ''.join(f'{lat} {lon} 0 0\n' for lon, lat in spots)
    command = ['cs2cs', '-f', '%.9f', 'EPSG:4326', f'EPSG:{code}']
    if shift[2]:
        pipeline = pipeline_of(code, shift[0].split(' + ')[-1])
        command = ['cct', '-d', '9', '-I', *pipeline.split()]
    return command[0], subprocess.run(command, capture_output=True, text=True, input=text).stdout.splitlines()


def main():
    database = sqlite3.connect('file:/usr/share/proj/proj.db?mode=ro', uri=True)
    values = []
    shifts = [row.split('|') for row in json.loads((HERE / 'data/crs/shifts.json').read_text(encoding='utf-8'))['rows']]
    for code, _name, _projection, shift, box in chosen(table_rows()):
        spots = list(places(box))
        tool, lines = asked(code, shifts[int(shift)], spots)
        for (lon, lat), line in zip(spots, lines):
            if '*' in line:
                continue
            first, second = (float(v) for v in line.split()[:2])
            x, y = (second, first) if north_first(database, code) else (first, second)
            values.append([int(code), tool, lon, lat, x, y])
    version = subprocess.run(['cs2cs'], capture_output=True, text=True).stderr.splitlines()[0]
    text = ',\n'.join(f'  {json.dumps(v)}' for v in values)
    note = f'code, tool, longitude, latitude, x, y; PROJ {version}; written by scripts/crs-check-values.py'
    out = HERE / 'tests' / 'geodesy' / 'crs-values.json'
    out.write_text(f'{{\n "source": {json.dumps(note)},\n "values": [\n{text}\n ]\n}}\n', encoding='utf-8')
    print(len(values), 'values in', len({v[0] for v in values}), 'CRS')


if __name__ == '__main__':
    main()
