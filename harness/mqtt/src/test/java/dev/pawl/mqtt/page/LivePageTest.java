package dev.pawl.mqtt.page;

import static org.assertj.core.api.Assertions.assertThat;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import dev.pawl.engine.Caution;
import dev.pawl.engine.EngineOptions;
import dev.pawl.engine.RuleEngine;
import dev.pawl.mqtt.binding.TopicBindings;
import dev.pawl.mqtt.client.ConnectionSettings;
import dev.pawl.mqtt.live.LiveOptions;
import dev.pawl.mqtt.live.LiveRun;
import dev.pawl.mqtt.live.LiveSetting;
import dev.pawl.mqtt.live.Watching;
import dev.pawl.mqtt.support.Chromium;
import dev.pawl.mqtt.support.Embedded;
import dev.pawl.mqtt.support.Foreign;
import dev.pawl.mqtt.support.Ride;
import dev.pawl.mqtt.time.HarnessClock;
import java.io.InputStream;
import java.net.InetAddress;
import java.net.Socket;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * The live page as a browser shows it, over a broker that can be killed; headless Chromium, which {@code .ci/run}
 * installs.
 */
class LivePageTest {

  private static final HarnessClock CLOCK = HarnessClock.started();
  /** Short enough to stand whole in the words about it. */
  private static final String HOSTILE = "<img src=x onerror=document.title=1>";

  @TempDir
  private Path folder;
  private final Embedded broker = new Embedded();
  private final LiveBoard board = new LiveBoard(Ride.BOOK);
  private LivePage page;
  private Thread session;
  private volatile boolean stop;

  @BeforeEach
  void watch() throws Exception {
    page = new LivePage(0, board);
    Watching watching = new Watching();
    watching.add(board);
    RuleEngine engine = new RuleEngine(Ride.BOOK, EngineOptions.DEFAULT, watching);
    LiveRun run = new LiveRun(new LiveSetting(Ride.BOOK, TopicBindings.byName(Ride.BOOK, "ride"), LiveOptions.DEFAULT,
        CLOCK), board.before(engine), Optional.empty(), false, watching);
    watching.follow(run, CLOCK, LiveOptions.DEFAULT.patience());
    watching.show(board, engine);
    session = new Thread(() -> {
      try {
        run.run(ConnectionSettings.of(broker.address(), "watch"), () -> stop);
      } catch (InterruptedException e) {
        Thread.currentThread().interrupt();
      }
    }, "test-watch");
    session.start();
  }

  @AfterEach
  void end() throws Exception {
    stop = true;
    session.join(20_000);
    page.close();
    broker.close();
  }

  private static void await(Callable<Boolean> condition) {
    Awaitility.await().atMost(Duration.ofSeconds(30)).pollInterval(Duration.ofMillis(100)).until(condition);
  }

  @Test
  void aBrowserShowsFindingsAsTheyComeTheLostConnectionAndTheProgramsEnd() throws Exception {
    assumeTrue(Chromium.isInstalled(), "Chromium is not installed");
    try (Chromium browser = Chromium.open(folder, page.address())) {
      await(() -> browser.text("state").startsWith("connected to the broker"));
      assertThat(browser.text("ride")).isEqualTo("Test ride");
      assertThat(browser.evaluate("document.querySelector('header').firstElementChild.textContent"))
          .isEqualTo(Caution.PROTECTION.text());
      assertThat(browser.text("rules")).contains("SPEED-01", "The lift never runs too fast");
      try (Foreign ride = new Foreign(broker.address(), "ride")) {
        ride.send("ride/lift_speed", "3.5");
        await(() -> browser.text("findings").contains("lift_speed = 3.5"));
        assertThat(browser.text("findings")).contains("SPEED-01");
        assertThat(browser.evaluate("document.querySelectorAll('#rules .broken').length")).isEqualTo("1");
        assertThat(browser.evaluate("document.querySelector('#last .headline').textContent"))
            .isEqualTo("brokenSPEED-01 The lift never runs too fast");
        assertThat(browser.text("counts")).isEqualTo("1broken0undecided3not exercised0held");
        ride.send("ride/lift_mode", HOSTILE);
        await(() -> browser.text("evidence").contains("onerror"));
      }
      // Whatever came is text: no script ran, no element came of it, and it stands there as it was sent.
      assertThat(browser.evaluate("document.title")).isEqualTo("Pawl: live");
      assertThat(browser.evaluate("document.images.length")).isEqualTo("0");
      assertThat(browser.text("evidence")).contains(HOSTILE);

      broker.kill();
      await(() -> browser.text("state").startsWith("connection to the broker lost; values are unknown"));
      assertThat(browser.evaluate("document.getElementById('state').className")).isEqualTo("lost");
      broker.restart();
      await(() -> browser.text("state").startsWith("connected to the broker"));
      page.close();
      await(() -> browser.text("state").equals("the watching program does not answer; trying again"));
    }
  }

  @Test
  void onlyItsOwnThingsAreServedOnlyUnderThisMachinesName() throws Exception {
    HttpClient client = HttpClient.newHttpClient();
    HttpResponse<String> home = client.send(HttpRequest.newBuilder(URI.create(page.address())).build(),
        HttpResponse.BodyHandlers.ofString());
    assertThat(home.statusCode()).isEqualTo(200);
    assertThat(home.body()).contains(Caution.OF_LISTENING.stream().map(Caution::text).toList()).doesNotContain("{");
    assertThat(home.headers().firstValue("Content-Security-Policy").orElseThrow())
        .contains("default-src 'none'", "script-src 'self'");
    assertThat(client.send(HttpRequest.newBuilder(URI.create(page.address() + "page.html")).build(),
        HttpResponse.BodyHandlers.ofString())
        .statusCode()).isEqualTo(404);
    assertThat(client.send(HttpRequest.newBuilder(URI.create(page.address())).POST(HttpRequest.BodyPublishers.ofString("x")).build(),
        HttpResponse.BodyHandlers.ofString()).statusCode()).isEqualTo(404);
  }

  /** A stranger's name may point to this machine (DNS rebinding), and looks like its own now and then. */
  @Test
  void aRequestNamesThisMachineAndPortExactly() throws Exception {
    int port = URI.create(page.address()).getPort();
    for (String host : List.of("127.0.0.1:" + port, "localhost:" + port, "LOCALHOST:" + port)) {
      assertThat(get("/", "Host: " + host + "\r\n")).as(host).startsWith("HTTP/1.1 200");
    }
    for (String host : List.of("ride.example", "localhost.evil.example:" + port, "127.0.0.1.x:" + port, "127.0.0.1:"
        + (port + 1), "127.0.0.1", "localhost", "localhost:" + port + "0", "localhost:" + port + " x", "xlocalhost:"
        + port, "127.0.0.1:" + port + "@evil.example", "[::1]:" + port, "")) {
      assertThat(get("/", "Host: " + host + "\r\n")).as(host).startsWith("HTTP/1.1 404");
      assertThat(get("/events", "Host: " + host + "\r\n")).as(host).startsWith("HTTP/1.1 404");
    }
    assertThat(get("/", "")).startsWith("HTTP/1.1 404");
    assertThat(get("/", ("Host: localhost:" + port + "\r\n").repeat(2))).startsWith("HTTP/1.1 404");
    assertThat(raw("GET /\r\n\r\n")).startsWith("HTTP/1.1 400");
    assertThat(get("/", "Cookie: " + "x".repeat(20_000) + "\r\n")).startsWith("HTTP/1.1 400");
  }

  /** Each asks for half of something, or reads nothing of what it asked for; the page and the feed go on. */
  @Test
  void manyWhoNeverEndTheirRequestsHarmNobody() throws Exception {
    URI address = URI.create(page.address());
    List<Socket> sockets = new ArrayList<>();
    try (Foreign ride = new Foreign(broker.address(), "ride")) {
      int threads = Thread.activeCount();
      for (int i = 0; i < 4_000; i++) {
        Socket socket = new Socket(address.getHost(), address.getPort());
        socket.getOutputStream().write((i % 8 == 0 ? "GET /events HTTP/1.1\r\nHost: localhost:" + address.getPort()
            + "\r\n\r\n" : "GET / HT")
            .getBytes(StandardCharsets.US_ASCII));
        sockets.add(socket);
      }
      assertThat(Thread.activeCount() - threads).isLessThanOrEqualTo(LivePage.MOST_VISITS + 20);
      await(() -> get("/", "Host: localhost:" + address.getPort() + "\r\n").startsWith("HTTP/1.1 200"));
      ride.send("ride/lift_speed", "3.5");
      await(() -> board.after(-1, 1).json().contains("lift_speed = 3.5"));
      for (Socket socket : sockets) {
        socket.close();
      }
      await(() -> page.visits() == 0);
    }
  }

  private String get(String path, String headers) throws Exception {
    return raw("GET " + path + " HTTP/1.1\r\n" + headers + "Connection: close\r\n\r\n");
  }

  private String raw(String request) throws Exception {
    URI address = URI.create(page.address());
    try (Socket socket = new Socket(InetAddress.getByName(address.getHost()), address.getPort())) {
      socket.getOutputStream().write(request.getBytes(StandardCharsets.US_ASCII));
      InputStream answer = socket.getInputStream();
      return new String(answer.readAllBytes(), StandardCharsets.UTF_8);
    }
  }
}
