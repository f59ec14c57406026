package dev.pawl.report.picture;

import dev.pawl.grammar.rules.model.RuleBook;
import dev.pawl.grammar.rules.model.RuleExample;
import dev.pawl.report.model.Picture;

/** The whole of an example, drawn with all that its rule looks at. */
public final class ExamplePicture {

  private ExamplePicture() {}

  public static Picture of(RuleExample example, RuleBook book) {
    long from = example.events().isEmpty() ? 0 : example.events().get(0).time();
    long last = example.events().isEmpty() ? from : example.events().get(example.events().size() - 1).time();
    PictureStretch stretch = PicturePlan.whole(book, book.rules().get(example.rule()), from,
        example.end().orElse(last));
    ZoneOccupancy occupancy = new ZoneOccupancy(book, stretch.zones(), (time, zone, value) ->
        stretch.addOccupancy(time, zone, value));
    occupancy.advanceTo(from);
    for (RuleExample.Event event : example.events()) {
      occupancy.event(event.time(), event.signal(), event.value(), event.line());
      stretch.add(event.time(), event.signal(), event.value());
    }
    occupancy.finish();
    return stretch.picture();
  }
}
