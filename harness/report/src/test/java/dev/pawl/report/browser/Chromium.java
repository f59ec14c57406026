package dev.pawl.report.browser;

import com.fasterxml.jackson.core.JsonFactory;
import com.fasterxml.jackson.core.JsonParser;
import com.fasterxml.jackson.core.JsonToken;
import com.fasterxml.jackson.core.io.JsonStringEncoder;
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
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.CompletionStage;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.awaitility.Awaitility;

/**
 * A headless browser, asked through its debugging port on loopback: opens files, runs expressions, prints, and keeps
 * what went wrong and what was asked of the network.
 */
public final class Chromium implements AutoCloseable {

  private static final List<Path> PLACES = List.of(Path.of("/usr/bin/chromium"), Path.of("/usr/bin/chromium-browser"));
  private static final JsonFactory FACTORY = new JsonFactory();

  private final Process process;
  private final WebSocket socket;
  private final BlockingQueue<String> messages;
  private final List<String> complaints = new ArrayList<>();
  private final List<String> requests = new ArrayList<>();
  private int asked;

  private Chromium(Process process, WebSocket socket, BlockingQueue<String> messages) {
    this.process = process;
    this.socket = socket;
    this.messages = messages;
  }

  public static boolean isInstalled() {
    return PLACES.stream().anyMatch(Files::isExecutable);
  }

  /** Starts it with an empty profile in the folder and an empty page. */
  public static Chromium start(Path folder) throws IOException {
    Path browser = PLACES.stream().filter(Files::isExecutable).findFirst().orElseThrow();
    Path profile = folder.resolve("profile");
    Process process = new ProcessBuilder(browser.toString(), "--headless", "--no-sandbox", "--disable-gpu",
        "--disable-quic", "--no-first-run", "--disable-background-networking", "--disable-component-update",
        "--disable-sync", "--disable-dev-shm-usage", "--remote-debugging-port=0", "--user-data-dir=" + profile,
        "about:blank").redirectOutput(ProcessBuilder.Redirect.DISCARD).redirectError(ProcessBuilder.Redirect.DISCARD)
        .start();
    try {
      HttpClient client = HttpClient.newHttpClient();
      BlockingQueue<String> messages = new LinkedBlockingQueue<>();
      WebSocket socket = client.newWebSocketBuilder().buildAsync(URI.create(debugger(client, profile)),
          new Listener(messages)).join();
      Chromium started = new Chromium(process, socket, messages);
      for (String domain : new String[] {"Page", "Runtime", "Log", "Network"}) {
        started.ask(domain + ".enable", "");
      }
      return started;
    } catch (RuntimeException e) {
      process.destroyForcibly();
      throw e;
    }
  }

  private static String debugger(HttpClient client, Path profile) {
    Path port = profile.resolve("DevToolsActivePort");
    return Awaitility.await().atMost(Duration.ofSeconds(60)).pollInterval(Duration.ofMillis(100)).ignoreExceptions()
        .until(() -> {
      URI list = URI.create("http://127.0.0.1:" + Files.readAllLines(port).get(0) + "/json/list");
      String pages = client.send(HttpRequest.newBuilder(list).build(), HttpResponse.BodyHandlers.ofString()).body();
      return pages.contains("about:blank") ? member(pages, "webSocketDebuggerUrl") : null;
    }, found -> found != null);
  }

  /** Opens a file and waits until all of it is there. */
  public void open(Path file) {
    ask("Page.navigate", "\"url\":\"" + file.toUri() + "\"");
    String name = file.getFileName().toString();
    Awaitility.await().atMost(Duration.ofSeconds(60)).pollInterval(Duration.ofMillis(50))
        .until(() -> evaluate("location.pathname.endsWith('" + name + "') && document.readyState"), "complete"::equals);
  }

  /** How wide and high the page is shown, in CSS pixels. */
  public void size(int width, int height) {
    ask("Emulation.setDeviceMetricsOverride", "\"width\":" + width + ",\"height\":" + height
        + ",\"deviceScaleFactor\":1,\"mobile\":false");
  }

  /** The value of an expression, as text; of a promise, what it comes to. */
  public String evaluate(String expression) {
    return member(ask("Runtime.evaluate", "\"awaitPromise\":true,\"expression\":\""
        + new String(JsonStringEncoder.getInstance().quoteAsString("(async () => String(await (" + expression
            + ")))()")) + "\""), "value");
  }

  /** Runs statements of a test in the page, whatever the page's policy is. */
  public void run(String statements) {
    ask("Runtime.evaluate", "\"expression\":\"" + new String(JsonStringEncoder.getInstance().quoteAsString(statements))
        + "\"");
  }

  /** The page as a PDF, on paper of a size in inches. */
  public byte[] print(double width, double height) {
    return Base64.getDecoder().decode(member(ask("Page.printToPDF", "\"preferCSSPageSize\":false,\"paperWidth\":"
        + width + ",\"paperHeight\":" + height + ",\"printBackground\":true"), "data"));
  }

  public byte[] picture() {
    return Base64.getDecoder().decode(member(ask("Page.captureScreenshot", "\"format\":\"png\""), "data"));
  }

  /** Errors of scripts and whatever the console had to say. */
  public List<String> complaints() {
    return List.copyOf(complaints);
  }

  /** What was fetched from anywhere but from files. */
  public List<String> requests() {
    return requests.stream().filter(address -> !address.startsWith("file:") && !address.startsWith("about:")
        && !address.startsWith("data:") && !address.startsWith("blob:")).toList();
  }

  private String ask(String method, String parameters) {
    int number = ++asked;
    socket.sendText("{\"id\":" + number + ",\"method\":\"" + method + "\",\"params\":{" + parameters + "}}", true)
        .join();
    try {
      for (String message = next(); ; message = next()) {
        if (message.startsWith("{\"id\":" + number + ",")) {
          return message;
        }
        note(message);
      }
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
      throw new IllegalStateException(e);
    }
  }

  private void note(String message) {
    String method = member(message, "method");
    if (method.equals("Network.requestWillBeSent")) {
      requests.add(member(message, "url"));
    } else if (List.of("Runtime.exceptionThrown", "Runtime.consoleAPICalled", "Log.entryAdded").contains(method)) {
      complaints.add(message);
    }
  }

  private String next() throws InterruptedException {
    String message = messages.poll(120, TimeUnit.SECONDS);
    if (message == null) {
      throw new AssertionError("the browser does not answer");
    }
    return message;
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

    private final BlockingQueue<String> messages;
    private final StringBuilder part = new StringBuilder();

    Listener(BlockingQueue<String> messages) {
      this.messages = messages;
    }

    @Override
    public CompletionStage<?> onText(WebSocket from, CharSequence data, boolean last) {
      part.append(data);
      if (last) {
        messages.add(part.toString());
        part.setLength(0);
      }
      from.request(1);
      return null;
    }
  }
}
