package dev.pawl.mqtt.page;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import dev.pawl.engine.Caution;
import java.io.Closeable;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.Map;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.atomic.AtomicInteger;

/** The page's server, on loopback only. It takes nothing in but the request for one of its four things. */
public final class LivePage implements Closeable {

  private static final String POLICY = "default-src 'none'; script-src 'self'; style-src 'self'; connect-src 'self'; base-uri 'none';"
      + " form-action 'none'; frame-ancestors 'none'";
  private static final Map<String, String> FILES =
      Map.of("/", "page.html", "/page.js", "page.js", "/page.css", "page.css");
  private static final int MOST_READERS = 16;
  private static final long HEARTBEAT_MILLISECONDS = 2000;

  private final HttpServer server;
  private final ExecutorService threads;
  private final LiveBoard board;
  private final AtomicInteger readers = new AtomicInteger();

  /**
   * Starts the server.
   *
   * @param port TCP port; 0 for a free one
   * @throws IOException if the port is taken
   */
  public LivePage(int port, LiveBoard board) throws IOException {
    this.board = board;
    this.server = HttpServer.create(new InetSocketAddress(InetAddress.getByName("127.0.0.1"), port), 0);
    this.threads = Executors.newCachedThreadPool(task -> {
      Thread thread = new Thread(task, "pawl-page");
      thread.setDaemon(true);
      return thread;
    });
    server.setExecutor(threads);
    server.createContext("/", this::file);
    server.createContext("/events", this::events);
    server.start();
  }

  /** Where a browser finds the page. */
  public String address() {
    return "http://127.0.0.1:" + server.getAddress().getPort() + "/";
  }

  private void file(HttpExchange exchange) throws IOException {
    try (exchange) {
      String name = FILES.get(exchange.getRequestURI().getPath());
      if (!isOwn(exchange) || name == null || !exchange.getRequestMethod().equals("GET")) {
        exchange.sendResponseHeaders(404, -1);
        return;
      }
      protect(exchange, name.endsWith(".js") ? "text/javascript" : name.endsWith(".css") ? "text/css" : "text/html");
      try (InputStream content = LivePage.class.getResourceAsStream(name)) {
        byte[] bytes = withCautions(new String(content.readAllBytes(), StandardCharsets.UTF_8)).getBytes(StandardCharsets.UTF_8);
        exchange.sendResponseHeaders(200, bytes.length);
        exchange.getResponseBody().write(bytes);
      }
    }
  }

  /** A caution stands where the page has its name in braces. */
  private static String withCautions(String text) {
    String said = text;
    for (Caution caution : Caution.values()) {
      said = said.replace("{" + caution.name() + "}", caution.text());
    }
    return said;
  }

  /** Whether the request names this machine, not some name that a stranger made point here. */
  private static boolean isOwn(HttpExchange exchange) {
    String host = exchange.getRequestHeaders().getFirst("Host");
    return host != null && (host.startsWith("127.0.0.1:") || host.startsWith("localhost:"));
  }

  private static void protect(HttpExchange exchange, String type) {
    exchange.getResponseHeaders().set("Content-Type", type + "; charset=utf-8");
    exchange.getResponseHeaders().set("Content-Security-Policy", POLICY);
    exchange.getResponseHeaders().set("X-Content-Type-Options", "nosniff");
    exchange.getResponseHeaders().set("Referrer-Policy", "no-referrer");
    exchange.getResponseHeaders().set("Cache-Control", "no-store");
  }

  private void events(HttpExchange exchange) throws IOException {
    int present = readers.incrementAndGet();
    try (exchange) {
      if (!isOwn(exchange) || present > MOST_READERS) {
        exchange.sendResponseHeaders(503, -1);
        return;
      }
      protect(exchange, "text/event-stream");
      exchange.sendResponseHeaders(200, 0);
      stream(exchange.getResponseBody());
    } catch (InterruptedException e) {
      Thread.currentThread().interrupt();
    } finally {
      readers.decrementAndGet();
    }
  }

  /** Sends pictures until the reader is gone; the last one again as a sign of life. JSON holds no line break, so it is one line. */
  private void stream(OutputStream out) throws IOException, InterruptedException {
    long seen = -1;
    for (LiveBoard.Picture picture = board.after(seen, 1); picture != null; picture = board.after(seen, HEARTBEAT_MILLISECONDS)) {
      seen = picture.version();
      out.write(("data: " + picture.json() + "\n\n").getBytes(StandardCharsets.UTF_8));
      out.flush();
    }
  }

  @Override
  public void close() {
    board.close();
    server.stop(0);
    threads.shutdownNow();
  }
}
