/** The command line: parses options, calls {@code selvage.workflow}, prints what comes back. */
package selvage.cli;
