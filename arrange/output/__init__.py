"""What a run leaves in a folder, and how such files are read again.

``fields`` turns data into records and back, ``rooms`` and ``records`` say what differs from
the fields of each class, ``reading`` opens an earlier result, ``files`` puts all that a run
writes in place together.
"""
