package selvage.separation;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.apache.pdfbox.cos.COSArray;
import org.apache.pdfbox.cos.COSBase;
import org.apache.pdfbox.cos.COSDictionary;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import selvage.finding.Finding;

/**
 * A document's page tree (ISO 32000-1, 7.7.3), walked once. One that is not sound, since it comes
 * back to itself, counts wrongly or has something else among its pages, is made anew of the pages
 * that are there, each with what it inherited; the rest of the program then meets a sound tree.
 */
final class PageTree {
  private static final List<COSName> INHERITED =
      List.of(COSName.RESOURCES, COSName.MEDIA_BOX, COSName.CROP_BOX, COSName.ROTATE);

  private final PDDocument document;
  private final COSDictionary root;
  private final List<COSDictionary> pages = new ArrayList<>();
  private final List<COSDictionary> donors = new ArrayList<>();
  private final Set<COSDictionary> seen = Collections.newSetFromMap(new IdentityHashMap<>());
  private final Deque<Node> path = new ArrayDeque<>();
  private boolean isSound = true;

  /** A node whose children are being walked. */
  private static final class Node {
    final COSDictionary dictionary;
    final COSDictionary handedDown;
    final COSArray kids;
    final int pagesBefore;
    int next;

    Node(COSDictionary dictionary, COSDictionary handedDown, COSArray kids, int pagesBefore) {
      this.dictionary = dictionary;
      this.handedDown = handedDown;
      this.kids = kids;
      this.pagesBefore = pagesBefore;
    }
  }

  private PageTree(PDDocument document) {
    this.document = document;
    this.root = document.getPages().getCOSObject();
  }

  static PageTree of(PDDocument document) {
    PageTree tree = new PageTree(document);
    tree.walk();
    return tree;
  }

  /** How many pages there are. */
  int size() {
    return pages.size();
  }

  private void walk() {
    enter(root, new COSDictionary());
    while (!path.isEmpty()) {
      Node node = path.peek();
      if (node.next == node.kids.size()) {
        path.pop();
        isSound &= node.dictionary.getInt(COSName.COUNT) == pages.size() - node.pagesBefore;
      } else {
        take(node, node.kids.getObject(node.next++));
      }
    }
  }

  private void take(Node parent, COSBase kid) {
    if (!(kid instanceof COSDictionary dictionary)) {
      isSound = false;
    } else if (dictionary.containsKey(COSName.KIDS)) {
      enter(dictionary, parent.handedDown);
    } else if (isPage(dictionary)) {
      isSound &= dictionary.containsKey(COSName.TYPE);
      pages.add(dictionary);
      donors.add(parent.handedDown);
    } else {
      isSound &= COSName.PAGES.equals(dictionary.getCOSName(COSName.TYPE));
    }
  }

  /** A page, or what has no type but something to show. */
  private static boolean isPage(COSDictionary dictionary) {
    return dictionary.containsKey(COSName.TYPE)
        ? COSName.PAGE.equals(dictionary.getCOSName(COSName.TYPE))
        : dictionary.containsKey(COSName.CONTENTS);
  }

  /** Begins with a node's children; not a second time, which would be a ring. */
  private void enter(COSDictionary node, COSDictionary inherited) {
    if (!seen.add(node) || !(node.getDictionaryObject(COSName.KIDS) instanceof COSArray kids)) {
      isSound = false;
      return;
    }
    COSDictionary handedDown = new COSDictionary(inherited);
    for (COSName key : INHERITED) {
      if (node.containsKey(key)) {
        handedDown.setItem(key, node.getItem(key));
      }
    }
    path.push(new Node(node, handedDown, kids, pages.size()));
  }

  /**
   * Makes a tree that is not sound anew, with one node.
   *
   * @return what was done; empty where the tree was sound
   */
  Optional<Finding> mend() {
    if (isSound) {
      return Optional.empty();
    }
    int stated = root.getInt(COSName.COUNT);
    COSArray kids = new COSArray();
    for (int i = 0; i < pages.size(); i++) {
      COSDictionary page = pages.get(i);
      for (COSName key : INHERITED) {
        if (!page.containsKey(key) && donors.get(i).containsKey(key)) {
          page.setItem(key, donors.get(i).getItem(key));
        }
      }
      page.setItem(COSName.TYPE, COSName.PAGE);
      page.setItem(COSName.PARENT, root);
      kids.add(page);
    }
    root.setItem(COSName.KIDS, kids);
    root.setInt(COSName.COUNT, kids.size());
    String where =
        Place.numbered(
            "the document's page tree",
            document.getDocumentCatalog().getCOSObject().getItem(COSName.PAGES));
    String found = where + " is damaged: it says " + stated + " pages, " + size() + " are there";
    return Optional.of(
        stated == size()
            ? Finding.note("page-tree-mended", found + "; they were taken in their order")
            : Finding.warning(
                "page-tree-mended",
                found + " and were taken; check with the sender that none is missing"));
  }
}
