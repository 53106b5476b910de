-- Every layer once, in metres, in one plane.

-- A conformal conic with two parallels through the middle of the coast, as a State
-- Plane zone has. A coast of coastgen is 120 km from south to north however long it
-- is, so lengths and widths err by no more than 2.2e-5, 7 mm in 300 m; the further
-- west and east cost nothing, as they would on a transverse Mercator. The parallels
-- share that error between the middle and the ends.
INSERT INTO spatial_ref_sys (srid, proj4text)
SELECT 990001, format('+proj=lcc +lat_1=%s +lat_2=%s +lat_0=%s +lon_0=%s +datum=WGS84 +units=m +no_defs',
    middle - high, middle + high, middle, lon)
FROM (SELECT (ST_YMin(e) + ST_YMax(e)) / 2 AS middle, (ST_YMax(e) - ST_YMin(e)) / 2 / sqrt(2) AS high,
             (ST_XMin(e) + ST_XMax(e)) / 2 AS lon
      FROM (SELECT ST_Extent(geom) AS e FROM raw_mhw) AS extent) AS coast;

-- Footprints as they are drawn: a line is a strip with flat ends, a point a disc.
-- What is not valid, or states no width, has none.
CREATE UNLOGGED TABLE footprint AS
SELECT id, geom
FROM (SELECT id, CASE ST_Dimension(geom)
               WHEN 2 THEN geom
               WHEN 1 THEN ST_Buffer(geom, width_ft * 0.3048 / 2, 'endcap=flat quad_segs=32')
               ELSE ST_Buffer(geom, diameter_ft * 0.3048 / 2, 'quad_segs=32')
             END AS geom
      FROM (SELECT id, width_ft, diameter_ft, ST_Transform(geom, 990001) AS geom FROM raw_proposals) AS placed
     ) AS drawn
WHERE ST_IsValid(geom) AND NOT ST_IsEmpty(geom);

-- Mean high water from end to end, and where it ends.
CREATE UNLOGGED TABLE shore AS
SELECT path[1] AS line, geom, ST_Length(geom) AS length
FROM (SELECT (ST_Dump(ST_LineMerge(ST_Collect(ST_Transform(geom, 990001))))).* FROM raw_mhw) AS merged;
CREATE UNLOGGED TABLE shore_end AS SELECT (ST_Dump(ST_Boundary(geom))).geom AS geom FROM shore;

-- Shores in short pieces, so that an index finds what is near and no more; those of mean
-- high water say where they start, in metres along it, and how far it leads around if it
-- is closed.
CREATE UNLOGGED TABLE mhw AS
SELECT line, start, around, ST_LineSubstring(geom, start / length, least(1, (start + 60) / length)) AS geom
FROM (SELECT *, CASE WHEN ST_IsClosed(geom) THEN length END AS around FROM shore) AS whole, generate_series(0, floor(length)::int, 60) AS start;
CREATE UNLOGGED TABLE mlw AS SELECT ST_Subdivide(ST_Transform(geom, 990001), 16) AS geom FROM raw_mlw;

CREATE UNLOGGED TABLE seagrass AS SELECT id, ST_Transform(geom, 990001) AS geom FROM raw_seagrass;
CREATE UNLOGGED TABLE wetlands AS SELECT id, ST_Transform(geom, 990001) AS geom FROM raw_wetlands;
CREATE UNLOGGED TABLE parcels AS SELECT parcel_id, ST_Transform(geom, 990001) AS geom FROM raw_parcels;
CREATE UNLOGGED TABLE riparian AS SELECT id, ST_Transform(geom, 990001) AS geom FROM raw_riparian;
-- A centreline stands for the edge at half its width.
CREATE UNLOGGED TABLE channels AS
SELECT id, CASE ST_Dimension(geom) WHEN 1 THEN width_ft * 0.3048 / 2 ELSE 0 END AS half, ST_Transform(geom, 990001) AS geom
FROM raw_channels;

-- These have edges of kilometres, straight in degrees (RFC 7946, 3.1.1) and bent in
-- the plane: cut before they are projected.
CREATE UNLOGGED TABLE habitat AS SELECT id, ST_Transform(ST_Segmentize(geom, 0.001), 990001) AS geom FROM raw_habitat;
CREATE UNLOGGED TABLE preserve AS SELECT id, ST_Transform(ST_Segmentize(geom, 0.001), 990001) AS geom FROM raw_preserve;
CREATE UNLOGGED TABLE surveyed AS
SELECT (ST_Dump(ST_Union(ST_Transform(ST_Segmentize(geom, 0.001), 990001)))).geom AS geom FROM raw_surveyed;
CREATE UNLOGGED TABLE survey_edge AS SELECT ST_Subdivide(ST_Boundary(geom), 16) AS geom FROM surveyed;

-- Beds that are not valid are made so.
UPDATE seagrass SET geom = ST_MakeValid(geom) WHERE NOT ST_IsValid(geom);
UPDATE wetlands SET geom = ST_MakeValid(geom) WHERE NOT ST_IsValid(geom);
