package dev.pawl.engine.proof;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import dev.pawl.engine.Finding;
import dev.pawl.engine.Obligations;
import dev.pawl.engine.RuleEngine;
import dev.pawl.engine.RuleOutcome;
import dev.pawl.engine.TraceOutcome;
import dev.pawl.engine.Told;
import dev.pawl.grammar.rules.Compilation;
import dev.pawl.grammar.rules.RuleLanguage;
import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.model.Rule;
import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.source.Source;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.duckdb.DuckDBAppender;
import org.duckdb.DuckDBConnection;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/**
 * Twelve rules of different forms over a million events give the same obligations, breaks and margins as SQL queries in
 * DuckDB.
 */
class SqlTest {
  private static final int EVENTS = 1_000_000;
  private static final String RULES = """
      input a, b, c, d : bool
      input v : m/s
      type mode = one of (run, hold, fault)
      input m : mode
      rule WITHIN "" basis practice when rises(a) must b within 100 ms
      rule NEAR "" basis practice resolution 10 ms when falls(a) must not b within 60 ms
      rule THROUGHOUT "" basis practice when rises(c) must not b throughout 40 ms
      rule SPEED "" basis practice when rises(c) must v <= 3 m/s
      rule LIMIT "" basis practice always v <= 5 m/s while b
      rule NEVER "" basis practice never a and c and d
      rule BEFORE "" basis practice when rises(a) must rises(c) before rises(d)
      rule STAY "" basis practice when falls(d) must not b within 60 ms, and stay so for 50 ms
      rule HELD "" basis practice when c for 100 ms must b
      rule COUNT "" basis practice always count(rises(a)) in last 1 s <= 4
      rule UNLESS "" basis practice when rises(d) unless m = fault must b within 100 ms
      rule LAST "" basis practice when rises(c) must a in last 60 ms
      """;

  private static RuleBook book;
  private static TraceOutcome outcome;
  private static final Map<Integer, List<Break>> BREAKS = new HashMap<>();
  private static Connection database;

  private record Break(long trigger, long place) {}

  /** What the database says about one rule; margin in nanoseconds for times. */
  private record Answer(Map<String, Long> endings, List<Break> breaks, Double margin) {}

  @BeforeAll
  static void judgeAndLoad() throws SQLException, IOException {
    Compilation compilation = RuleLanguage.compile(List.of(new Source("sql.rules", RULES)), SourceLoader.none());
    book = compilation.book().orElseThrow(() -> new AssertionError(compilation.rendered()));
    LongTrace trace = new LongTrace(EVENTS, 41);
    RuleEngine engine = new RuleEngine(book, EngineRun.SHARED, (Told.OfRules) SqlTest::note);
    trace.feed(engine);
    outcome = engine.finish();
    database = DriverManager.getConnection("jdbc:duckdb:");
    load(trace);
  }

  @AfterAll
  static void close() throws SQLException {
    database.close();
  }

  private static void load(LongTrace trace) throws SQLException, IOException {
    try (Statement statement = database.createStatement()) {
      statement.execute("SET threads = 1");
      // Else a query with few triggers is joined by trying every pair.
      statement.execute("SET asof_loop_join_threshold = 0");
      statement.execute("CREATE TABLE event (place INTEGER, t BIGINT, signal VARCHAR, v DOUBLE)");
      try (DuckDBAppender appender = ((DuckDBConnection) database).createAppender("main", "event")) {
        for (int i = 0; i < trace.size(); i++) {
          appender.beginRow();
          appender.append(i);
          appender.append(trace.time[i]);
          appender.append(book.signals().get(trace.signal[i]).name());
          appender.append(trace.value[i]);
          appender.endRow();
        }
      }
      statement.execute(resource("setup.sql"));
    }
  }

  private static String resource(String name) throws IOException {
    try (InputStream stream = SqlTest.class.getResourceAsStream("sql/" + name)) {
      return new String(stream.readAllBytes(), StandardCharsets.UTF_8);
    }
  }

  @Test
  void everyRuleIsExercisedBothWays() {
    for (Rule rule : book.rules()) {
      assertThat(outcome.rules().get(rule.index()).obligations().missed()).as("breaks of %s", rule.id()).isPositive();
    }
    assertThat(outcome.events()).isEqualTo(EVENTS);
  }

  @TestFactory
  List<DynamicTest> engineAndDatabaseAgree() throws IOException {
    String queries = resource("rules.sql");
    return book.rules().stream()
        .map(rule -> DynamicTest.dynamicTest(rule.id(), () -> compare(rule, ask(query(queries, rule.id()))))).toList();
  }

  private static String query(String queries, String id) {
    int begin = queries.indexOf("-- " + id + "\n");
    return queries.substring(begin, queries.indexOf(";", begin));
  }

  private static Answer ask(String query) throws SQLException {
    Map<String, Long> endings = new HashMap<>();
    List<Break> breaks = new ArrayList<>();
    Double margin = null;
    try (Statement statement = database.createStatement(); ResultSet rows = statement.executeQuery(query)) {
      while (rows.next()) {
        String ending = rows.getString("ending");
        if (ending != null) {
          endings.merge(ending, 1L, Long::sum);
        }
        if ("missed".equals(ending)) {
          breaks.add(new Break(rows.getLong("trigger"), rows.getLong("place")));
        }
        double distance = rows.getDouble("margin");
        if (!rows.wasNull() && (margin == null || distance < margin)) {
          margin = distance;
        }
      }
    }
    return new Answer(endings, breaks, margin);
  }

  private static void compare(Rule rule, Answer answer) {
    RuleOutcome judged = outcome.rules().get(rule.index());
    Obligations obligations = judged.obligations();
    assertThat(endings(obligations)).isEqualTo(answer.endings);
    assertThat(inOrder(BREAKS.getOrDefault(rule.index(), List.of()))).isEqualTo(inOrder(answer.breaks));
    assertThat(judged.margin().isPresent()).isEqualTo(answer.margin != null);
    judged.margin().ifPresent(margin -> assertThat(margin.value())
        .isCloseTo(margin.unit().equals("s") ? answer.margin / 1e9 : answer.margin, within(1e-15)));
  }

  private static List<Break> inOrder(List<Break> breaks) {
    return breaks.stream().sorted(Comparator.comparing(Break::trigger).thenComparing(Break::place)).toList();
  }

  private static Map<String, Long> endings(Obligations obligations) {
    Map<String, Long> counts = Map.of("met", obligations.met(), "missed", obligations.missed(), "open",
        obligations.open(), "borderline", obligations.borderline(), "cancelled", obligations.cancelled(), "unknown",
        obligations.unknown(), "already so", obligations.alreadySo());
    return counts.entrySet().stream().filter(entry -> entry.getValue() > 0)
        .collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
  }

  private static void note(Finding finding) {
    if (finding.kind().breaks()) {
      BREAKS.computeIfAbsent(finding.rule(), rule -> new ArrayList<>())
          .add(new Break(finding.trigger(), finding.time()));
    }
  }
}
