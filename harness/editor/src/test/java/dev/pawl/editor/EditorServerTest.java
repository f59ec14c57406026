package dev.pawl.editor;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.InstanceOfAssertFactories.STRING;

import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import org.eclipse.lsp4j.CompletionItem;
import org.eclipse.lsp4j.CompletionParams;
import org.eclipse.lsp4j.DefinitionParams;
import org.eclipse.lsp4j.Diagnostic;
import org.eclipse.lsp4j.DiagnosticSeverity;
import org.eclipse.lsp4j.DidChangeTextDocumentParams;
import org.eclipse.lsp4j.DidCloseTextDocumentParams;
import org.eclipse.lsp4j.DidOpenTextDocumentParams;
import org.eclipse.lsp4j.DocumentFormattingParams;
import org.eclipse.lsp4j.FormattingOptions;
import org.eclipse.lsp4j.Hover;
import org.eclipse.lsp4j.HoverParams;
import org.eclipse.lsp4j.InitializeParams;
import org.eclipse.lsp4j.InitializeResult;
import org.eclipse.lsp4j.Location;
import org.eclipse.lsp4j.Position;
import org.eclipse.lsp4j.TextDocumentContentChangeEvent;
import org.eclipse.lsp4j.TextDocumentIdentifier;
import org.eclipse.lsp4j.TextDocumentItem;
import org.eclipse.lsp4j.TextEdit;
import org.eclipse.lsp4j.VersionedTextDocumentIdentifier;
import org.eclipse.lsp4j.jsonrpc.Launcher;
import org.eclipse.lsp4j.launch.LSPLauncher;
import org.eclipse.lsp4j.services.LanguageServer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** The server as an editor sees it, through a client of the same library over real streams. */
@Timeout(120)
class EditorServerTest {

  private static final String RIDE = """
      ride "Test stand"
      use "stop.rules"
      input  estop_chain : bool -- true while healthy
      input  base_flag   : bool
      input  crest_flag  : bool
      output lift_run    : bool
      zone lift enter rises(base_flag) leave falls(crest_flag) starts with 0
      rule LIFT-01 "The lift stands when it is empty"
        basis practice
        never lift_run and not occupied(lift)
      """;

  private static final String STOP = """
      needs estop_chain, lift_run : bool
      constant reaction = 500 ms
      rule STOP-01 "An emergency stop stops the lift"
        basis practice
        when falls(estop_chain)
        must not lift_run within reaction
      """;

  @TempDir
  private Path folder;

  private final Told told = new Told();
  private CompletableFuture<Boolean> served;
  private LanguageServer server;
  private String ride;
  private String stop;

  @BeforeEach
  void connect() throws Exception {
    Files.writeString(folder.resolve("ride.rules"), RIDE);
    Files.writeString(folder.resolve("stop.rules"), STOP);
    ride = folder.resolve("ride.rules").toUri().toString();
    stop = folder.resolve("stop.rules").toUri().toString();
    PipedInputStream toServer = new PipedInputStream(1 << 16);
    PipedInputStream toClient = new PipedInputStream(1 << 16);
    PipedOutputStream fromClient = new PipedOutputStream(toServer);
    PipedOutputStream fromServer = new PipedOutputStream(toClient);
    served = CompletableFuture.supplyAsync(() -> EditorServer.serve(toServer, fromServer, Optional.empty(), "1.2.3"));
    Launcher<LanguageServer> launcher = LSPLauncher.createClientLauncher(told, toClient, fromClient);
    launcher.startListening();
    server = launcher.getRemoteProxy();
    InitializeResult result = server.initialize(new InitializeParams()).get();
    assertThat(result.getServerInfo().getVersion()).isEqualTo("1.2.3");
    assertThat(result.getCapabilities().getHoverProvider().getLeft()).isTrue();
  }

  @AfterEach
  void leave() throws Exception {
    server.shutdown().get();
    server.exit();
    assertThat(served.get(60, TimeUnit.SECONDS)).isTrue();
  }

  private void open(String uri, String text) {
    server.getTextDocumentService().didOpen(new DidOpenTextDocumentParams(new TextDocumentItem(uri, "pawl", 1, text)));
  }

  private void change(String uri, String text) {
    server.getTextDocumentService().didChange(new DidChangeTextDocumentParams(
        new VersionedTextDocumentIdentifier(uri, 2), List.of(new TextDocumentContentChangeEvent(text))));
  }

  private static String message(Diagnostic diagnostic) {
    return diagnostic.getMessage().getLeft();
  }

  /** Where a text begins in another, moved by some columns. */
  private static Position at(String text, String words, int columns) {
    String before = text.substring(0, text.indexOf(words));
    int line = (int) before.chars().filter(c -> c == '\n').count();
    return new Position(line, before.length() - before.lastIndexOf('\n') - 1 + columns);
  }

  private List<String> completions(String uri, Position spot) throws Exception {
    return server.getTextDocumentService().completion(new CompletionParams(new TextDocumentIdentifier(uri), spot)).get()
        .getLeft().stream().map(CompletionItem::getLabel).toList();
  }

  private String hover(String uri, Position spot) throws Exception {
    Hover hover = server.getTextDocumentService().hover(new HoverParams(new TextDocumentIdentifier(uri), spot)).get();
    return hover == null ? "" : hover.getContents().getRight().getValue();
  }

  private List<String> definitions(String uri, Position spot) throws Exception {
    return server.getTextDocumentService().definition(new DefinitionParams(new TextDocumentIdentifier(uri), spot)).get()
        .getLeft().stream().map(EditorServerTest::said).toList();
  }

  private static String said(Location location) {
    Position start = location.getRange().getStart();
    return Path.of(java.net.URI.create(location.getUri())).getFileName() + ":" + (start.getLine() + 1) + ":"
        + (start.getCharacter() + 1);
  }

  @Test
  void tellsWhatIsWrongAndThatItIsNotAnyMore() throws Exception {
    open(ride, RIDE.replace("occupied(lift)", "occupied(lft)"));
    List<Diagnostic> wrong = told.await(ride, all -> !all.isEmpty());
    assertThat(wrong).hasSize(1);
    assertThat(message(wrong.get(0))).isEqualTo("`lft` is not declared\ndid you mean lift?");
    assertThat(wrong.get(0).getSeverity()).isEqualTo(DiagnosticSeverity.Error);
    assertThat(wrong.get(0).getRange().getStart()).isEqualTo(at(RIDE, "occupied(lift)", 9));
    change(ride, RIDE);
    told.await(ride, List::isEmpty);
  }

  @Test
  void tellsWhatIsWrongInAFileThatIsUsedAsItStandsInTheEditor() throws Exception {
    open(ride, RIDE);
    told.await(ride, List::isEmpty);
    open(stop, STOP.replace("500 ms", "500 m"));
    assertThat(told.await(stop, all -> !all.isEmpty()).get(0)).extracting(EditorServerTest::message, STRING).contains("time");
    change(stop, STOP);
    told.await(stop, List::isEmpty);
    server.getTextDocumentService().didClose(new DidCloseTextDocumentParams(new TextDocumentIdentifier(ride)));
    assertThat(told.await(stop, all -> !all.isEmpty()).stream().map(EditorServerTest::message)
        .collect(Collectors.joining())).as("alone, nobody declares what it needs").contains("this file needs");
  }

  @Test
  void completesNamesZonesUnitsAndWords() throws Exception {
    open(ride, RIDE);
    assertThat(completions(ride, at(RIDE, "never lift_run", 6)))
        .contains("estop_chain", "lift", "reaction", "STOP-01", "since", "occupied", "within").doesNotContain("km/h");
    assertThat(completions(ride, at(RIDE, "occupied(lift)", 9))).containsExactly("lift");
    open(stop, STOP);
    assertThat(completions(stop, at(STOP, "500 ms", 4))).contains("ms", "m/s", "degC").doesNotContain("lift");
  }

  @Test
  void completesBesideAnErrorToo() throws Exception {
    String unfinished = RIDE + "rule LIFT-02 \"x\"\n  when rises(\n";
    open(ride, unfinished);
    assertThat(completions(ride, at(unfinished, "when rises(", 11))).contains("estop_chain", "reaction");
  }

  @Test
  void saysRulesInPlainWordsAndNamesByTheirDeclarations() throws Exception {
    open(ride, RIDE);
    assertThat(hover(ride, at(RIDE, "LIFT-01", 2))).startsWith("**LIFT-01** The lift stands when it is empty")
        .contains("zone lift is not occupied");
    assertThat(hover(ride, at(RIDE, "never", 1))).startsWith("**LIFT-01**");
    assertThat(hover(ride, at(RIDE, "lift_run and", 3))).contains("output lift_run    : bool").contains("ride.rules:6:");
    assertThat(hover(ride, at(RIDE, "ride \"Test", 0))).isEmpty();
  }

  @Test
  void goesToWhatIsDeclaredInAnotherFile() throws Exception {
    open(ride, RIDE);
    open(stop, STOP);
    assertThat(definitions(ride, at(RIDE, "stop.rules", 3))).containsExactly("stop.rules:1:1");
    assertThat(definitions(stop, at(STOP, "lift_run within", 2))).containsExactly("ride.rules:6:8");
    assertThat(definitions(stop, at(STOP, "within reaction", 9))).containsExactly("stop.rules:2:10");
    assertThat(definitions(ride, at(RIDE, "occupied(lift)", 10))).containsExactly("ride.rules:7:6");
  }

  @Test
  void laysAFileOutAndLeavesOneWithErrorsAlone() throws Exception {
    open(stop, STOP);
    List<? extends TextEdit> edits = server.getTextDocumentService()
        .formatting(new DocumentFormattingParams(new TextDocumentIdentifier(stop), new FormattingOptions(2, true))).get();
    assertThat(edits).hasSize(1);
    assertThat(edits.get(0).getNewText()).contains("  basis    practice\n  when     falls(estop_chain)\n");
    change(stop, "rule");
    assertThat(server.getTextDocumentService()
        .formatting(new DocumentFormattingParams(new TextDocumentIdentifier(stop), new FormattingOptions(2, true))).get()).isEmpty();
  }

  @Test
  void aTextThatLiesNowhereYetIsReadToo() throws Exception {
    open("untitled:Untitled-1", "input a : bol\n");
    assertThat(told.await("untitled:Untitled-1", all -> !all.isEmpty()).get(0)).extracting(EditorServerTest::message, STRING).contains("bol");
  }
}
