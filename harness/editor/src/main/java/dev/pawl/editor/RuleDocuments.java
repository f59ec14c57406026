package dev.pawl.editor;

import dev.pawl.grammar.rules.SourceLoader;
import dev.pawl.grammar.rules.format.RuleFormatter;
import dev.pawl.grammar.source.Diagnostic;
import dev.pawl.grammar.source.Source;
import dev.pawl.run.files.UsedFiles;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeMap;
import java.util.concurrent.CompletableFuture;
import org.eclipse.lsp4j.CompletionItem;
import org.eclipse.lsp4j.CompletionList;
import org.eclipse.lsp4j.CompletionParams;
import org.eclipse.lsp4j.DefinitionParams;
import org.eclipse.lsp4j.DiagnosticSeverity;
import org.eclipse.lsp4j.DidChangeTextDocumentParams;
import org.eclipse.lsp4j.DidCloseTextDocumentParams;
import org.eclipse.lsp4j.DidOpenTextDocumentParams;
import org.eclipse.lsp4j.DidSaveTextDocumentParams;
import org.eclipse.lsp4j.DocumentFormattingParams;
import org.eclipse.lsp4j.Hover;
import org.eclipse.lsp4j.HoverParams;
import org.eclipse.lsp4j.Location;
import org.eclipse.lsp4j.LocationLink;
import org.eclipse.lsp4j.MarkupContent;
import org.eclipse.lsp4j.MarkupKind;
import org.eclipse.lsp4j.PublishDiagnosticsParams;
import org.eclipse.lsp4j.Range;
import org.eclipse.lsp4j.TextDocumentPositionParams;
import org.eclipse.lsp4j.TextEdit;
import org.eclipse.lsp4j.jsonrpc.messages.Either;
import org.eclipse.lsp4j.services.LanguageClient;
import org.eclipse.lsp4j.services.TextDocumentService;

/**
 * The rule files that are open in an editor, as they stand there. One that another open file uses is read with that
 * one, since what it needs is declared there; any other is read by itself with what it uses.
 */
final class RuleDocuments implements TextDocumentService {

  private final Optional<Path> library;
  private final Map<String, Source> open = new LinkedHashMap<>();
  private final Map<String, Understanding> understood = new LinkedHashMap<>();
  private final Set<String> told = new HashSet<>();
  private LanguageClient client;

  RuleDocuments(Optional<Path> library) {
    this.library = library;
  }

  /** Names whom to tell what is wrong. */
  void tell(LanguageClient listener) {
    client = listener;
  }

  @Override
  public synchronized void didOpen(DidOpenTextDocumentParams opened) {
    take(opened.getTextDocument().getUri(), opened.getTextDocument().getText());
  }

  @Override
  public synchronized void didChange(DidChangeTextDocumentParams changed) {
    changed.getContentChanges().forEach(change -> take(changed.getTextDocument().getUri(), change.getText()));
  }

  @Override
  public synchronized void didClose(DidCloseTextDocumentParams closed) {
    String name = Spots.name(closed.getTextDocument().getUri());
    open.remove(name);
    understood.remove(name);
    readAgain();
  }

  @Override
  public void didSave(DidSaveTextDocumentParams saved) {
    // What was saved has been read already, as it changed.
  }

  private void take(String uri, String text) {
    String name = Spots.name(uri);
    open.put(name, new Source(name, text));
    for (String reader : open.keySet()) {
      if (reader.equals(name) || understood.containsKey(reader) && understood.get(reader).reads(name)) {
        read(reader);
      }
    }
    publish();
  }

  /** Reads all that is open anew, since other files may have changed. */
  synchronized void readAgain() {
    open.keySet().forEach(this::read);
    publish();
  }

  private void read(String name) {
    understood.put(name, Understanding.of(open.get(name), loader(name), Optional.ofNullable(understood.get(name))));
  }

  private SourceLoader loader(String name) {
    if (!Spots.uri(name).startsWith("file:")) {
      return SourceLoader.none();
    }
    UsedFiles files = new UsedFiles(List.of(Path.of(name)), List.of(), library);
    return used -> {
      Source edited = open.get(used);
      return edited != null ? edited : files.load(used);
    };
  }

  /** What a file is read with. */
  private Understanding of(String name) {
    Understanding own = understood.get(name);
    return understood.entrySet().stream()
        .filter(other -> other.getValue().reads(name) && !own.reads(other.getKey()))
        .map(Map.Entry::getValue).findFirst().orElse(own);
  }

  /** Tells what is wrong, file by file, and that nothing is where something was. */
  private void publish() {
    Map<String, List<org.eclipse.lsp4j.Diagnostic>> wrong = new TreeMap<>();
    told.forEach(file -> wrong.put(file, new ArrayList<>()));
    for (String name : open.keySet()) {
      wrong.computeIfAbsent(name, none -> new ArrayList<>());
      if (of(name) == understood.get(name)) {
        understood.get(name).compilation().diagnostics().forEach(each -> wrong.computeIfAbsent(each.position().file()
            .isEmpty() ? name : each.position().file(), none -> new ArrayList<>()).add(diagnostic(each)));
      }
    }
    told.clear();
    wrong.forEach((file, all) -> {
      client.publishDiagnostics(new PublishDiagnosticsParams(Spots.uri(file), all));
      if (!all.isEmpty()) {
        told.add(file);
      }
    });
  }

  private static org.eclipse.lsp4j.Diagnostic diagnostic(Diagnostic each) {
    String hint = each.hint().isEmpty() ? "" : "\n" + each.hint();
    return new org.eclipse.lsp4j.Diagnostic(Spots.range(each.position()), each.message() + hint,
        each.isError() ? DiagnosticSeverity.Error : DiagnosticSeverity.Warning, "pawl");
  }

  /** The answers of a spot of an open file. */
  private Optional<Answers> answers(TextDocumentPositionParams asked) {
    String name = Spots.name(asked.getTextDocument().getUri());
    return Optional.ofNullable(open.get(name)).map(source -> new Answers(of(name), source, asked.getPosition()));
  }

  @Override
  public synchronized CompletableFuture<Either<List<CompletionItem>, CompletionList>> completion(
      CompletionParams asked) {
    return CompletableFuture.completedFuture(Either.forLeft(answers(asked).map(Answers::completions)
        .orElse(List.of())));
  }

  @Override
  public synchronized CompletableFuture<Hover> hover(HoverParams asked) {
    return CompletableFuture.completedFuture(answers(asked).flatMap(Answers::hover)
        .map(text -> new Hover(new MarkupContent(MarkupKind.MARKDOWN, text))).orElse(null));
  }

  @Override
  public synchronized CompletableFuture<Either<List<? extends Location>, List<? extends LocationLink>>> definition(
      DefinitionParams asked) {
    return CompletableFuture.completedFuture(Either.forLeft(answers(asked).map(Answers::definitions)
        .orElse(List.of()).stream().map(Spots::location).toList()));
  }

  /** The whole text anew; a file that cannot be read keeps its layout. */
  @Override
  public synchronized CompletableFuture<List<? extends TextEdit>> formatting(DocumentFormattingParams asked) {
    Source source = open.get(Spots.name(asked.getTextDocument().getUri()));
    List<TextEdit> edits = Optional.ofNullable(source).flatMap(text -> RuleFormatter.format(text).text())
        .filter(text -> !text.equals(source.text()))
        .map(text -> List.of(new TextEdit(whole(source.text()), text))).orElse(List.of());
    return CompletableFuture.completedFuture(edits);
  }

  private static Range whole(String text) {
    return new Range(new org.eclipse.lsp4j.Position(0, 0),
        new org.eclipse.lsp4j.Position((int) text.chars().filter(c -> c == '\n').count() + 1, 0));
  }
}
