/** What to ask for when a file of heights is fetched; docs/getting-a-dem.md says the same at length. */
export const WHAT_TO_ASK_FOR: readonly string[] = [
  'A ground model, not a surface model. A DTM (digital terrain model) shows the bare ground. A DSM (digital surface model) shows the top of whatever stands on it: crowns, hedges, roofs. Some files are just called DEM; read their description.',
  'Small cells. One metre from airborne lidar is best and often free. Ten metres will do for a first look. Thirty metres tells you which valley to walk, not where to put a pump.',
  'One file for everything, or neighbouring tiles of the same survey. Heights of different products differ by metres, because each has its own zero and its own errors. Only differences within one product mean anything here.',
  'GeoTIFF (.tif), with its coordinate system inside. If a portal offers a choice of coordinates, take the national grid or a UTM zone in metres. The planner says which files it reads, asks about and refuses.',
];

/** Who publishes heights of the ground: where, programme and agency, size of cells, zero of the heights. */
export const ELEVATION_SOURCES: readonly (readonly [where: string, who: string, cells: string, datum: string])[] = [
  [
    'United States',
    '3D Elevation Program (3DEP), US Geological Survey: lidar tiles, and a seamless model of 1/3 arc-second',
    '1 m; about 10 m',
    'NAVD88',
  ],
  ['Canada', 'High Resolution Digital Elevation Model (HRDEM), Natural Resources Canada', '1 to 2 m', 'CGVD2013'],
  ['Mexico', 'Continuo de Elevaciones Mexicano, INEGI', '15 m; lidar 5 m in places', 'NAVD88'],
  ['England', 'National LIDAR Programme, Environment Agency', '1 m', 'Ordnance Datum Newlyn'],
  [
    'Scotland, Wales',
    'Scottish Remote Sensing Portal; Natural Resources Wales and Welsh Government lidar',
    '0.5 to 2 m',
    'Ordnance Datum Newlyn',
  ],
  ['Ireland', 'open lidar, Geological Survey Ireland', '1 to 2 m, in parts', 'Malin Head'],
  ['Netherlands', 'Actueel Hoogtebestand Nederland (AHN)', '0.5 m', 'NAP'],
  ['Belgium', 'Digitaal Hoogtemodel Vlaanderen; lidar of the Walloon region', '1 m', 'TAW, DNG'],
  ['France', 'LiDAR HD and RGE ALTI, IGN', '0.5 to 5 m', 'NGF-IGN69'],
  ['Germany', 'DGM1, the survey office of each Land', '1 m', 'DHHN2016'],
  ['Switzerland', 'swissALTI3D, swisstopo', '0.5 and 2 m', 'LN02'],
  ['Austria', 'terrain models of the Länder; 10 m model of all Austria', '1 to 10 m', 'Trieste'],
  ['Spain', 'PNOA-LiDAR, Instituto Geográfico Nacional', '2 to 5 m', 'national levelling'],
  ['Denmark', 'Danmarks Højdemodel, Klimadatastyrelsen', '0.4 m', 'DVR90'],
  ['Norway', 'Nasjonal detaljert høydemodell, Kartverket', '1 m', 'NN2000'],
  ['Finland', 'elevation model, Maanmittauslaitos', '2 m', 'N2000'],
  [
    'Poland, Czechia, Slovenia, Estonia, Latvia',
    'national lidar models of the survey offices',
    '0.5 to 5 m',
    'national levelling',
  ],
  ['New Zealand', 'LINZ lidar', '1 m', 'NZVD2016'],
  [
    'Australia',
    'ELVIS, the elevation portal of Geoscience Australia and the states',
    '1 to 5 m, 30 m everywhere',
    'AHD',
  ],
  ['Japan', 'base map elevation (DEM5A), Geospatial Information Authority', '5 m', 'Tokyo Bay'],
  ['the whole world', 'Copernicus DEM GLO-30, European Space Agency: a surface model', '30 m', 'EGM2008'],
  ['most of the world', 'SRTM and NASADEM (NASA); AW3D30 (JAXA): surface models', '30 m', 'EGM96'],
];

export const SOURCES_NOTE =
  'Names and agencies, as public facts; offers and licences change, so ask the agency. Most are free to download. Rows outside the United States, England, the Netherlands, Switzerland and New Zealand are from memory.';
