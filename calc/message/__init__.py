"""Messages to the bridge: read from JSON text, and refused with a sentence where their shape is wrong.

What a page sends is data from outside, whoever wrote it. Behind this door every text is a text that can be written as
UTF-8, every number is finite, and each kind of ask has what it needs.
"""

from calc.message.asks import kind_of
from calc.message.reading import number_of, read_message
from calc.message.shapes import MessageError

__all__ = ["MessageError", "kind_of", "number_of", "read_message"]
