-- From events to what each signal was when; times in nanoseconds, spans closed at their begin and open at their end.
CREATE TABLE settled AS
  SELECT signal, t, arg_max(v, place) AS v FROM event GROUP BY signal, t;
CREATE TABLE change AS
  SELECT signal, t, v, before
  FROM (SELECT *, lag(v) OVER (PARTITION BY signal ORDER BY t) AS before FROM settled)
  WHERE before IS NULL OR v <> before;
-- Nobody knows since when the first value has stood: it may have been so always.
CREATE TABLE span AS
  SELECT signal, v, t AS t0, CASE WHEN before IS NULL THEN -1 ELSE t END AS since,
    coalesce(lead(t) OVER (PARTITION BY signal ORDER BY t), 4000000000000000000) AS t1 FROM change;
CREATE TABLE rise AS SELECT signal, t FROM change WHERE v = 1 AND before = 0 ORDER BY signal, t;
CREATE TABLE fall AS SELECT signal, t FROM change WHERE v = 0 AND before = 1 ORDER BY signal, t;
CREATE TABLE finish AS SELECT max(t) AS t FROM event;
-- The state of all signals at every instant.
CREATE TABLE state AS
  SELECT t,
    last_value(a IGNORE NULLS) OVER w AS a, last_value(b IGNORE NULLS) OVER w AS b, last_value(c IGNORE NULLS) OVER w AS c,
    last_value(d IGNORE NULLS) OVER w AS d, last_value(v IGNORE NULLS) OVER w AS v
  FROM (SELECT t, max(v) FILTER (signal = 'a') AS a, max(v) FILTER (signal = 'b') AS b, max(v) FILTER (signal = 'c') AS c,
    max(v) FILTER (signal = 'd') AS d, max(v) FILTER (signal = 'v') AS v FROM settled GROUP BY t)
  WINDOW w AS (ORDER BY t ROWS UNBOUNDED PRECEDING);
