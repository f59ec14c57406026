package dev.pawl.mqtt.support;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.net.http.WebSocket;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.awaitility.Awaitility;

/** A headless browser on one page, asked through its debugging port on loopback. */
public final class Chromium implements AutoCloseable {

  private static final List<Path> PLACES = List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/chromium-browser"));
  private static final JsonFactory FACTORY = new JsonFactory();

  private final Process process;
  private final WebSocket socket;
  private final BlockingQueue<String> answers;
  private int asked;

  private Chromium(Process process, WebSocket socket, BlockingQueue<String> answers) {
    this.process = process;
    this.socket = socket;
    this.answers = answers;
  }

  public static boolean isInstalled() {
    return PLACES.stream().anyMatch(Files::isExecutable);
  }

  /** Opens the page, with an empty profile in the folder. */
  public static Chromium open(Path folder, String address) throws IOException {
    Path browser = PLACES.stream().filter(Files::isExecutable).findFirst().orElseThrow();
    Path profile = folder.resolve("profile");
    Process process = new ProcessBuilder(browser.toString(), "--headless", "--no-sandbox", "--disable-gpu",
        "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
        "--disable-sync", "--disable-dev-shm-usage", "--remote-debugging-port=0", "--user-data-dir=" + profile, address)
        .redirectOutput(ProcessBuilder.Redirect.DISCARD).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    try {
      HttpClient client = HttpClient.newHttpClient();
      BlockingQueue<String> answers = new LinkedBlockingQueue<>();
      WebSocket socket = client.newWebSocketBuilder().buildAsync(URI.create(debugger(client, profile, address)),
          new Listener(answers)).join();
      return new Chromium(process, socket, answers);
    } catch (RuntimeException e) {
      process.destroyForcibly();
      throw e;
    }
  }

  /** Where the page can be asked, once the browser has it. */
  private static String debugger(HttpClient client, Path profile, String address) {
    Path port = profile.resolve("DevToolsActivePort");
    return Awaitility.await().atMost(Duration.ofSeconds(60)).pollInterval(Duration.ofMillis(100)).ignoreExceptions()
        .until(() -> {
      URI list = URI.create("http://127.0.0.1:" + Files.readAllLines(port).get(0) + "/json/list");
      String pages = client.send(HttpRequest.newBuilder(list).build(), HttpResponse.BodyHandlers.ofString()).body();
      return pages.contains("\"" + address + "\"") ? member(pages, "webSocketDebuggerUrl") : null;
    }, found -> found != null);
  }

  /** The text of the element with this identifier, as the document holds it; none before the document has come. */
  public String text(String id) {
    return evaluate("document.getElementById('" + id + "')?.textContent ?? ''");
  }

  /** The value of an expression, as text. */
  public String evaluate(String expression) {
    int number = ++asked;
    socket.sendText("{\"id\":" + number + ",\"method\":\"Runtime.evaluate\",\"params\":{\"expression\":\"String("
        + expression.replace("\\", "\\\\").replace("\"", "\\\"") + ")\"}}", true).join();
    try {
      for (String answer = next(); ; answer = next()) {
        if (answer.startsWith("{\"id\":" + number + ",")) {
          return member(answer, "value");
        }
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private String next() throws InterruptedException {
    String answer = answers.poll(20, TimeUnit.SECONDS);
    if (answer == null) {
      throw new AssertionError("the browser does not answer");
    }
    return answer;
  }

  /** The first member of this name at any depth. */
  private static String member(String json, String name) {
    try (JsonParser parser = FACTORY.createParser(json)) {
      for (JsonToken token = parser.nextToken(); token != null; token = parser.nextToken()) {
        if (token == JsonToken.FIELD_NAME && parser.currentName().equals(name)) {
          return parser.nextTextValue();
        }
      }
    } catch (IOException e) {
      throw new UncheckedIOException(e);
    }
    throw new AssertionError("no " + name + " in " + json);
  }

  @Override
  public void close() {
    socket.abort();
    List<ProcessHandle> all = Stream.concat(process.descendants(), Stream.of(process.toHandle())).toList();
    all.forEach(ProcessHandle::destroyForcibly);
    all.forEach(each -> each.onExit().orTimeout(20, TimeUnit.SECONDS).join());
  }

  /** Puts whole messages into a queue. */
  private static final class Listener implements WebSocket.Listener {

    private final BlockingQueue<String> answers;
    private final StringBuilder part = new StringBuilder();

    Listener(BlockingQueue<String> answers) {
      this.answers = answers;
    }

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence data, boolean last) {
      part.append(data);
      if (last) {
        answers.add(part.toString());
        part.setLength(0);
      }
      from.request(1);
      return null;
    }
  }
}
