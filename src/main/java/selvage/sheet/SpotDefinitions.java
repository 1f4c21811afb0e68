package selvage.sheet;

import java.io.IOException;
import java.util.ArrayDeque;
import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSFloat;
import org.apache.pdfbox.cos.COSInteger;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.cos.COSObject;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.common.function.PDFunction;

/**
 * How the job itself defines its spot colorants: the Separation colour space of each, found by
 * walking resources, forms, patterns, Type 3 fonts, soft masks and annotations. A spot that the job
 * only has within a DeviceN gets a Separation of the same alternate space, its tint transform a
 * straight line between that DeviceN's colours of no ink and of the spot's solid.
 */
final class SpotDefinitions {
  private static final COSName COLORANTS = COSName.getPDFName("Colorants");
  private static final COSName ALL = COSName.getPDFName("All");

  /** Bounds the walk through files that were made to be endless. */
  private static final int MOST_OBJECTS = 200_000;

  private final Map<String, COSBase> separations = new LinkedHashMap<>();
  private final Map<String, COSArray> deviceN = new LinkedHashMap<>();
  private final Set<COSBase> seen = Collections.newSetFromMap(new IdentityHashMap<>());
  private final Deque<COSBase> left = new ArrayDeque<>();

  private SpotDefinitions() {}

  /** The definitions that pages use; those of earlier pages come first. */
  static SpotDefinitions of(Iterable<PDPage> pages) {
    SpotDefinitions definitions = new SpotDefinitions();
    for (PDPage page : pages) {
      if (page.getResources() != null) {
        definitions.left.add(page.getResources().getCOSObject());
      }
      COSBase annotations = page.getCOSObject().getDictionaryObject(COSName.ANNOTS);
      if (annotations instanceof COSArray list) {
        definitions.addAppearances(list);
      }
      definitions.walk();
    }
    return definitions;
  }

  private void addAppearances(COSArray annotations) {
    for (int i = 0; i < annotations.size(); i++) {
      if (annotations.getObject(i) instanceof COSDictionary annotation
          && annotation.getDictionaryObject(COSName.AP) instanceof COSDictionary appearances
          && appearances.getDictionaryObject(COSName.N) instanceof COSDictionary normal) {
        left.add(normal);
        addValues(normal);
      }
    }
  }

  private void walk() {
    while (!left.isEmpty() && seen.size() < MOST_OBJECTS) {
      COSBase next = left.poll();
      if (!seen.add(next)) {
        continue;
      }
      if (next instanceof COSArray array) {
        takeColorSpace(array, array);
      } else if (next instanceof COSDictionary dictionary) {
        takeDictionary(dictionary);
      }
    }
  }

  /** A resource dictionary, a stream with resources, a pattern, a shading or a font. */
  private void takeDictionary(COSDictionary dictionary) {
    takeNamed(dictionary.getDictionaryObject(COSName.COLORSPACE));
    takeColorSpaceOf(dictionary, COSName.COLORSPACE);
    takeColorSpaceOf(dictionary, COSName.CS);
    for (COSName kind :
        List.of(COSName.XOBJECT, COSName.PATTERN, COSName.SHADING, COSName.EXT_G_STATE)) {
      COSBase value = dictionary.getDictionaryObject(kind);
      if (value instanceof COSDictionary named) {
        left.add(named); // a pattern's own shading stands under the same name
        addValues(named);
      }
    }
    if (dictionary.getDictionaryObject(COSName.FONT) instanceof COSDictionary fonts) {
      for (COSName name : fonts.keySet()) {
        if (fonts.getDictionaryObject(name) instanceof COSDictionary font
            && COSName.TYPE3.equals(font.getCOSName(COSName.SUBTYPE))) {
          left.add(font);
        }
      }
    }
    for (COSName key : List.of(COSName.RESOURCES, COSName.SMASK, COSName.G, COSName.GROUP)) {
      if (dictionary.getDictionaryObject(key) instanceof COSDictionary inner) {
        left.add(inner);
      }
    }
  }

  private void addValues(COSDictionary named) {
    for (COSName name : named.keySet()) {
      if (named.getDictionaryObject(name) instanceof COSDictionary value) {
        left.add(value);
      }
    }
  }

  /** The colour spaces of a resource dictionary. */
  private void takeNamed(COSBase value) {
    if (value instanceof COSDictionary spaces) {
      for (COSName name : spaces.keySet()) {
        takeColorSpace(spaces.getItem(name), spaces.getDictionaryObject(name));
      }
    }
  }

  private void takeColorSpaceOf(COSDictionary dictionary, COSName key) {
    takeColorSpace(dictionary.getItem(key), dictionary.getDictionaryObject(key));
  }

  /**
   * Takes a colour space.
   *
   * @param item as it is referred to, so that it can be referred to again
   */
  private void takeColorSpace(COSBase item, COSBase value) {
    if (!(value instanceof COSArray array)
        || array.size() < 2
        || !(array.getObject(0) instanceof COSName family)) {
      return;
    }
    if (COSName.SEPARATION.equals(family) && array.size() >= 4) {
      if (array.getObject(1) instanceof COSName name && isSpot(name)) {
        separations.putIfAbsent(name.getName(), item);
      }
    } else if (COSName.DEVICEN.equals(family) && array.size() >= 4) {
      takeDeviceN(array);
    } else if (COSName.INDEXED.equals(family) || COSName.PATTERN.equals(family)) {
      if (array.getObject(1) instanceof COSArray base && seen.add(base)) {
        takeColorSpace(array.get(1), base);
      }
    }
  }

  private void takeDeviceN(COSArray array) {
    if (array.size() > 4
        && array.getObject(4) instanceof COSDictionary attributes
        && attributes.getDictionaryObject(COLORANTS) instanceof COSDictionary colorants) {
      takeNamed(colorants);
    }
    if (array.getObject(1) instanceof COSArray names) {
      for (int i = 0; i < names.size(); i++) {
        if (names.getObject(i) instanceof COSName name && isSpot(name)) {
          deviceN.putIfAbsent(name.getName(), array);
        }
      }
    }
  }

  private static boolean isSpot(COSName name) {
    return !COSName.NONE.equals(name)
        && !ALL.equals(name)
        && selvage.ink.Colorant.named(name.getName()).isSpot();
  }

  /**
   * The Separation of a spot as the job has it, by reference where it stands by itself.
   *
   * @return a {@link COSArray} or a reference to one; empty where the job has no usable definition
   */
  Optional<COSBase> separation(String spot) {
    COSBase found = separations.get(spot);
    if (found == null && deviceN.containsKey(spot)) {
      found = ofDeviceN(spot, deviceN.get(spot)).orElse(null);
      if (found != null) {
        separations.put(spot, found);
      }
    }
    return Optional.ofNullable(found);
  }

  private static Optional<COSBase> ofDeviceN(String spot, COSArray array) {
    COSArray names = (COSArray) array.getObject(1);
    float[] tints = new float[names.size()];
    float[] none;
    float[] solid;
    try {
      PDFunction transform = PDFunction.create(array.getObject(3));
      none = transform.eval(tints.clone());
      for (int i = 0; i < names.size(); i++) {
        boolean same = names.getObject(i) instanceof COSName name && name.getName().equals(spot);
        tints[i] = same ? 1 : 0;
      }
      solid = transform.eval(tints);
    } catch (IOException | RuntimeException e) {
      return Optional.empty(); // the caller falls back to a colour of its own, and says so
    }
    COSArray separation = new COSArray();
    separation.add(COSName.SEPARATION);
    separation.add(COSName.getPDFName(spot));
    separation.add(array.get(2));
    separation.add(line(none, solid));
    return Optional.of(separation);
  }

  /** A type 2 function of exponent 1. */
  static COSDictionary line(float[] from, float[] to) {
    COSDictionary function = new COSDictionary();
    function.setItem(COSName.FUNCTION_TYPE, COSInteger.get(2));
    function.setItem(COSName.DOMAIN, numbers(new float[] {0, 1}));
    function.setItem(COSName.C0, numbers(from));
    function.setItem(COSName.C1, numbers(to));
    function.setItem(COSName.N, COSInteger.ONE);
    return function;
  }

  static COSArray numbers(float[] values) {
    COSArray array = new COSArray();
    for (float value : values) {
      array.add(value == (int) value ? COSInteger.get((int) value) : new COSFloat(value));
    }
    return array;
  }

  /** The array that a colour space reference stands for. */
  static COSArray array(COSBase colorSpace) {
    return (COSArray) (colorSpace instanceof COSObject object ? object.getObject() : colorSpace);
  }
}
