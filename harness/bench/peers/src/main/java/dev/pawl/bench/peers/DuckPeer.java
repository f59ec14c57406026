package dev.pawl.bench.peers;

import java.io.PrintStream;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.List;
import java.util.Locale;

/**
 * The rules as SQL in DuckDB, in memory, on one thread: the trace is loaded once into a table, then each rule is one
 * query.
 *
 * <p>Arguments: the trace; {@code two} or {@code many}; for a check of other settings, the number of threads. Prints
 * the time of loading and, for each rule, its counts and its time.
 */
public final class DuckPeer {

  private static final String LOAD = """
      CREATE TABLE trace AS SELECT time_ms AS t, signal, value
      FROM read_csv('%s', header = true, columns = {'time_ms': 'BIGINT', 'signal': 'signal_name', 'value': 'DOUBLE'})
      """;

  private DuckPeer() {}

  public static void main(String[] arguments) throws SQLException {
    PrintStream out = System.out;
    List<SqlRules.Rule> rules = arguments[1].equals("two") ? SqlRules.two() : SqlRules.many();
    try (Connection connection = DriverManager.getConnection("jdbc:duckdb:");
        Statement statement = connection.createStatement()) {
      statement.execute("SET threads = " + (arguments.length > 2 ? arguments[2] : "1"));
      statement.execute("SET asof_loop_join_threshold = 0");
      long start = System.nanoTime();
      load(statement, Path.of(arguments[0]));
      out.printf(Locale.ROOT, "load %.3f%n", seconds(start));
      for (SqlRules.Rule rule : rules) {
        long begun = System.nanoTime();
        try (ResultSet counts = statement.executeQuery(rule.query())) {
          counts.next();
          long obligations = counts.getLong(1);
          String arose = counts.wasNull() ? "-" : Long.toString(obligations);
          out.printf(Locale.ROOT, "%s %s %d %.3f%n", rule.id(), arose, counts.getLong(2), seconds(begun));
        }
      }
    }
  }

  /** Names as an enumeration, so that queries compare numbers. */
  private static void load(Statement statement, Path trace) throws SQLException {
    String file = trace.toString().replace("'", "''");
    statement.execute("CREATE TYPE signal_name AS ENUM (SELECT DISTINCT signal FROM (SELECT signal FROM read_csv('"
        + file + "', header = true) LIMIT 20))");
    statement.execute(LOAD.formatted(file));
  }

  private static double seconds(long since) {
    return (System.nanoTime() - since) / 1e9;
  }
}
