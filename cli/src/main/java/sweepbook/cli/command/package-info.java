/** The words a person types, one class a command. */
package sweepbook.cli.command;
