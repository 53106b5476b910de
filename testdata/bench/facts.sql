-- A line each: what ran, what on, and how far the plane errs.
SELECT format('PostgreSQL %s, PostGIS %s, GEOS %s', split_part(current_setting('server_version'), ' ', 1),
    postgis_lib_version(), split_part(postgis_geos_version(), '-', 1));
SELECT format('%s MHW and %s MLW vertices, %s proposals, %s seagrass beds of %s vertices, %s parcels',
    (SELECT sum(ST_NPoints(geom)) FROM raw_mhw), (SELECT sum(ST_NPoints(geom)) FROM raw_mlw), (SELECT count(*) FROM raw_proposals),
    (SELECT count(*) FROM raw_seagrass), (SELECT sum(ST_NPoints(geom)) FROM raw_seagrass), (SELECT count(*) FROM raw_parcels));
-- 300 m on the spheroid, north and east from the south, the middle and the north of the
-- west edge, in the plane.
SELECT format('the plane errs by %s mm in 300 m', round(max(abs(
    ST_Distance(ST_Transform(a, 990001), ST_Transform(ST_Project(a::geography, 300, azimuth)::geometry, 990001)) - 300) * 1000)::numeric, 1))
FROM (SELECT ST_SetSRID(ST_MakePoint(ST_XMin(e), ST_YMin(e) + part * (ST_YMax(e) - ST_YMin(e))), 4326) AS a
      FROM (SELECT ST_Extent(geom) AS e FROM raw_mhw) AS extent, unnest(ARRAY[0, 0.5, 1]) AS part) AS places,
     unnest(ARRAY[0, pi() / 2]) AS azimuth;
