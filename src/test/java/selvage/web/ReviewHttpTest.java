package selvage.web;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import java.util.zip.GZIPInputStream;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.io.TempDir;

/** The review over HTTP, as a browser without scripts uses it. */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
class ReviewHttpTest {
  private static final Pattern KEY =
      Pattern.compile("<li class=\"patch\"[^>]*data-key=\"([^\"]+)\"");
  private static final Pattern VERSION = Pattern.compile("data-version=\"(\\d+)\"");
  private static final Pattern COVERAGE = Pattern.compile("id=\"coverage\">([0-9.]+) %");

  private WebShop shop;
  private String review;

  @BeforeAll
  void open(@TempDir Path root) throws Exception {
    shop = WebShop.open(root);
  }

  @AfterAll
  void close() {
    shop.close();
  }

  @BeforeEach
  void takeIn() throws Exception {
    review = shop.takeDemo();
  }

  private static List<String> keys(String page) {
    List<String> keys = new ArrayList<>();
    Matcher matcher = KEY.matcher(page);
    while (matcher.find()) {
      keys.add(matcher.group(1).replace("&amp;", "&"));
    }
    return keys;
  }

  private static String found(Pattern pattern, String page) {
    Matcher matcher = pattern.matcher(page);
    assertThat(matcher.find()).as(pattern + " in the page").isTrue();
    return matcher.group(1);
  }

  private static double coverage(String page) {
    return Double.parseDouble(found(COVERAGE, page));
  }

  private HttpResponse<String> change(String page, String what, String inks)
      throws IOException, InterruptedException {
    return shop.post(
        review + "/pages/1/set",
        Map.of("seen", found(VERSION, page), "do", what, "inks", inks, "count", "12"));
  }

  @Test
  void take_demoJob_showsItsSetAndItsPicture() throws Exception {
    String page = shop.get(review).body();
    assertThat(keys(page)).hasSize(24);
    assertThat(page).contains("Dune Red 100", "Page 1 of 2", "210 × 297 mm", "FOGRA39");

    HttpResponse<byte[]> picture = shop.bytes(review + "/pages/1/picture.png?fine=1");
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(picture.body()));
    // 210 × 297 mm at 150 an inch.
    assertThat(image.getWidth()).isEqualTo(1240);
    assertThat(image.getHeight()).isEqualTo(1754);
  }

  @Test
  void picture_plateAlone_leavesTheOthersOut() throws Exception {
    BufferedImage red =
        ImageIO.read(
            new ByteArrayInputStream(
                shop.bytes(review + "/pages/1/picture.png?fine=1&plate=Dune+Red").body()));
    BufferedImage none =
        ImageIO.read(
            new ByteArrayInputStream(
                shop.bytes(review + "/pages/1/picture.png?fine=1&plate=").body()));
    int paper = none.getRGB(600, 200);
    assertThat(none.getRGB(30, 1100)).isEqualTo(paper);
    assertThat(red.getRGB(30, 1100)).as("the red band of the page").isNotEqualTo(paper);
    assertThat(red.getRGB(600, 200)).as("the sky").isEqualTo(paper);
  }

  @Test
  void set_patchLeftOut_coverageFallsAndUndoBringsItBack() throws Exception {
    String before = shop.get(review).body();
    String largest = keys(before).get(0);
    String after = change(before, "drop", largest).body();
    assertThat(keys(after)).hasSize(23).doesNotContain(largest);
    assertThat(coverage(after)).isLessThan(coverage(before));
    assertThat(after).contains("an operator left out");

    String undone = change(after, "undo", "").body();
    assertThat(keys(undone)).isEqualTo(keys(before));
    assertThat(coverage(undone)).isEqualTo(coverage(before));

    String redone = change(undone, "redo", "").body();
    assertThat(keys(redone)).isEqualTo(keys(after));
  }

  @Test
  void set_mixtureUnderTheMark_isTakenIn() throws Exception {
    String before = shop.get(review).body();
    JsonNode spot =
        new ObjectMapper().readTree(shop.get(review + "/pages/1/spot?x=600&y=850").body());
    assertThat(spot.path("inks")).hasSize(6);
    String key = spot.path("key").asText();
    String after = change(before, "add", key).body();
    assertThat(keys(after)).hasSize(25).contains(key);
    assertThat(coverage(after)).isGreaterThanOrEqualTo(coverage(before));

    HttpResponse<String> twice = change(after, "add", key);
    assertThat(twice.statusCode()).isEqualTo(422);
    assertThat(twice.body()).contains("is in the set already");
  }

  @Test
  void set_keptAndCounted_keepsTheKeptAndNotTheLeftOut() throws Exception {
    String page = shop.get(review).body();
    String last = keys(page).get(23);
    String gone = keys(page).get(5);
    page = change(page, "keep", last).body();
    page = change(page, "drop", gone).body();
    page = change(page, "count", "").body();
    assertThat(keys(page)).hasSize(12).contains(last).doesNotContain(gone);
  }

  @Test
  void set_moved_changesPlacesAlone() throws Exception {
    String page = shop.get(review).body();
    List<String> keys = keys(page);
    String moved = change(page, "down", keys.get(0)).body();
    assertThat(keys(moved).subList(0, 2)).containsExactly(keys.get(1), keys.get(0));
    assertThat(coverage(moved)).isEqualTo(coverage(page));
  }

  @Test
  void set_changedFromAnOldPage_isRefused() throws Exception {
    String old = shop.get(review).body();
    change(old, "drop", keys(old).get(3));
    HttpResponse<String> late = change(old, "drop", keys(old).get(4));
    assertThat(late.statusCode()).isEqualTo(409);
    assertThat(late.body()).contains("Load the page again");
    assertThat(keys(shop.get(review).body())).hasSize(23);
  }

  @Test
  void map_everyPlace_addsUpToTheSharesOfTheSet() throws Exception {
    HttpResponse<byte[]> answer = shop.bytes(review + "/pages/1/map");
    byte[] map;
    try (GZIPInputStream in = new GZIPInputStream(new ByteArrayInputStream(answer.body()))) {
      map = in.readAllBytes();
    }
    int columns = Integer.parseInt(answer.headers().firstValue("X-Map-Columns").orElseThrow());
    int lines = Integer.parseInt(answer.headers().firstValue("X-Map-Lines").orElseThrow());
    assertThat(map).hasSize(2 * columns * lines);
    double inked = 0;
    double near = 0;
    for (int i = 0; i < columns * lines; i++) {
      if ((map[i] & 255) != 255) {
        inked++;
        near += (map[columns * lines + i] & 255) <= 60 ? 1 : 0;
      }
    }
    // Every second sample each way: the coverage of all of them to within a point.
    assertThat(100 * near / inked).isCloseTo(coverage(shop.get(review).body()), within(1.0));
  }

  @Test
  void approve_changedSet_stampsExactlyItAndFilesIt() throws Exception {
    String page = shop.get(review).body();
    String gone = keys(page).get(2);
    page = change(page, "drop", gone).body();
    List<String> wanted = keys(page);
    shop.post(review + "/approve", Map.of("seen", found(VERSION, page)));

    List<Path> written;
    try (Stream<Path> files = Files.list(shop.root.resolve("out"))) {
      written = files.filter(file -> !file.getFileName().toString().startsWith(".")).toList();
    }
    Path strips =
        written.stream()
            .filter(file -> file.toString().endsWith(".strips.json"))
            .max((one, other) -> one.toString().compareTo(other.toString()))
            .orElseThrow();
    JsonNode file = new ObjectMapper().readTree(strips.toFile());
    List<String> stamped = new ArrayList<>();
    for (JsonNode patch : file.path("strips").get(0).path("patches")) {
      if (patch.path("set").asText().equals("job")) {
        stamped.add(patch.path("inks").toString());
      }
    }
    assertThat(stamped).hasSize(wanted.size());
    String stem = strips.toString().replace(".proof.strips.json", "");
    assertThat(Path.of(stem + ".proof.pdf")).exists();
    assertThat(Path.of(stem + ".job.json")).content().contains("\"stamped\"");
    JsonNode record = new ObjectMapper().readTree(Path.of(stem + ".review.json").toFile());
    assertThat(record.path("changes")).hasSize(3);
    assertThat(record.path("changes").get(1).path("who").asText()).isEqualTo("at 127.0.0.1");
    assertThat(record.path("changes").get(2).path("kind").asText()).isEqualTo("approved");

    HttpResponse<String> late = change(page, "drop", wanted.get(0));
    assertThat(late.statusCode()).isEqualTo(409);
    assertThat(shop.get(review).body()).contains("This job is approved");
  }

  @Test
  void show_pageThatTheJobLacks_saysSo() throws Exception {
    HttpResponse<String> answer = shop.get(review + "/pages/3");
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(answer.body()).contains("3").doesNotContain("off the desk");
  }

  @Test
  void take_noJob_saysWhatIsWrong() throws Exception {
    HttpResponse<String> answer =
        shop.upload(
            "/jobs",
            "job",
            "letter.pdf",
            "no job at all".getBytes(java.nio.charset.StandardCharsets.UTF_8));
    assertThat(answer.statusCode()).isEqualTo(422);
    assertThat(answer.body()).contains("letter.pdf").contains("Take it off the desk");
  }
}
